import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { addSample } from "../../../../../electron/services/sample-class.ts";
import { restoreBackup } from "../../../../../electron/store/file/backup.ts";
import { openStore, type Store } from "../../../../../electron/store/store.ts";
import { monday, temporaryFolder, temporaryStore } from "../temporary-folder.ts";

const dayMs = 86_400_000;
const called = "Zebrafinch class";

/** Names of the files of a data folder that hold a text, read byte by byte. */
function filesWith(folder: string, text: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map(({ parentPath, name }) => join(parentPath, name))
    .filter((path) => readFileSync(path).includes(text));
}

/** The invented class, in which everything is kept that can be, with words of the teacher's own; archived. */
function archivedClass(store: Store) {
  const groupId = addSample(store, { wallMs: () => monday, offsetMinutes: () => 0 });
  store.groups.update(groupId, { name: called, target: "Zebrafinch target" });
  const students = store.students.list(groupId, false);
  students.forEach(({ id }, at) => {
    store.students.update(id, { name: `Quux ${at}` });
    store.familyWords.save(id, `Quux words ${at}`, "2026-03-02");
  });
  store.settings.save({ seatsInRow: { [groupId]: 4 }, picturesOnly: [groupId] });
  store.settings.keepUntil(groupId, "2026-06-30");
  store.putAside.put(`archive ${groupId} 1`, monday);
  const privilege = store.privileges.list(groupId)[0];
  if (privilege === undefined) throw new Error("The sample has no privilege.");
  const sessionIds = store.sessions.list(groupId, 500).map(({ id }) => id);
  return { groupId, students, privilegeId: privilege.id, sessionIds };
}

test("no byte of a group, its students or its sessions is left in any file, backups included", {
  timeout: 60_000,
}, () => {
  const folder = temporaryFolder();
  let wallMs = monday;
  const store = temporaryStore(folder, () => wallMs);
  const { groupId, students, sessionIds } = archivedClass(store);
  const other = store.groups.create({ name: "Room 9", target: "", isSample: false }, monday);
  store.students.add(other.id, ["Otter Quiet"], monday);
  store.settings.keepUntil(other.id, "2027-01-01");
  store.backUpIfDue();
  wallMs += dayMs;
  store.groups.setArchived(groupId, wallMs);
  store.backUpIfDue();
  expect(filesWith(folder, groupId).length).toBeGreaterThanOrEqual(3);
  expect(sessionIds.length).toBeGreaterThan(10);

  const erased = store.eraseGroup(groupId);
  expect(erased).toEqual({ students: 8, sessions: sessionIds.length, backups: 2 });
  const gone = [
    called,
    "Zebrafinch",
    "Quux",
    groupId,
    ...students.map(({ id }) => id),
    ...sessionIds,
  ];
  for (const text of gone) expect(filesWith(folder, text), text).toEqual([]);
  expect(store.settings.keptUntil()).toEqual({ [other.id]: "2027-01-01" });
  expect(store.settings.get()).toMatchObject({ seatsInRow: {}, picturesOnly: [] });
  expect(store.putAside.list()).toEqual([]);
  expect(store.students.list(other.id, false).map(({ name }) => name)).toEqual(["Otter Quiet"]);
  expect(store.eraseGroup(groupId)).toBeNull();
  store.close();
  for (const text of gone) expect(filesWith(folder, text), text).toEqual([]);
});

test("who moved to another group stays, with their points and what they bought", {
  timeout: 60_000,
}, () => {
  const folder = temporaryFolder();
  const store = openStore({ folder, now: () => monday });
  const { groupId, students, privilegeId } = archivedClass(store);
  const [mover] = students;
  if (mover === undefined) throw new Error("Nobody is in the sample.");
  const entry = {
    studentId: mover.id,
    sourceKey: "00000000-0000-4000-8000-000000000001",
    revision: 1,
    due: null,
    forgiven: 0,
    day: "2026-03-02",
    wallMs: monday,
    offsetMinutes: 0,
    reverses: null,
    privilegeId,
  } as const;
  store.ledger.add({ ...entry, source: "exchange", rule: "exchange", amount: -1 });
  store.backUpIfDue();
  const other = store.groups.create({ name: "Room 9", target: "", isSample: false }, monday);
  store.students.move(mover.id, other.id, monday + dayMs);
  const balance = () => store.ledger.balance(mover.id);
  const before = balance();
  expect(before).not.toBe(0);

  expect(store.eraseGroup(groupId)).toMatchObject({ students: 7, backups: 1 });
  expect(store.groups.get(groupId)).toBeNull();
  expect(store.students.get(mover.id)?.groupId).toBe(other.id);
  expect(balance()).toEqual(before);
  expect(store.ledger.find("exchange", entry.sourceKey, mover.id)).not.toBeNull();
  for (const { id } of students.slice(1)) expect(filesWith(folder, id)).toEqual([]);
  expect(filesWith(folder, called)).toEqual([]);
  store.close();

  // The backup is of before the move: the student is kept there too, in a group without a name.
  const [backup] = readdirSync(join(folder, "backups"));
  restoreBackup(folder, join(folder, "backups", backup ?? ""), monday);
  const restored = temporaryStore(folder);
  const kept = restored.students.get(mover.id);
  expect(kept?.name).toBe("Quux 0");
  expect(restored.groups.get(kept?.groupId ?? "")?.name).toBe("–");
  expect(restored.groups.get(groupId)).toBeNull();
});

test("a group that comes back with a copy from elsewhere is erased again", {
  timeout: 60_000,
}, () => {
  const folder = temporaryFolder();
  const stick = temporaryFolder();
  const store = temporaryStore(folder);
  const { groupId } = archivedClass(store);
  const copy = store.backUpElsewhere(stick);
  store.eraseGroup(groupId);
  expect(filesWith(stick, called)).not.toEqual([]);
  store.bringBackup(copy);
  expect(filesWith(folder, called)).toEqual([]);
  expect(filesWith(folder, groupId)).toEqual([]);
});
