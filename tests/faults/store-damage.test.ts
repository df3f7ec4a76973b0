import {
  copyFileSync,
  existsSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { databaseName, restoreBackup } from "../../electron/store/file/backup.ts";
import { openStore, StoreError } from "../../electron/store/store.ts";
import { makeClass } from "../unit/electron/store/make-class.ts";
import {
  monday,
  temporaryFolder,
  temporaryStore,
} from "../unit/electron/store/temporary-folder.ts";

const now = () => monday;

/** A folder with data, a backup of it, and the data file's path. */
function filled() {
  const folder = temporaryFolder();
  const store = openStore({ folder, now });
  const { groupId, sessionId } = makeClass(store);
  const stamp = { atMs: 0, wallMs: monday, offsetMinutes: 0 };
  const notes = Array.from({ length: 400 }, (_, index) => {
    return { kind: "note", text: `Line ${index} `.repeat(10) } as const;
  });
  store.log.appendAll(sessionId, notes, stamp);
  const backup = store.backUpIfDue();
  store.close();
  if (backup === null) throw new Error("No backup was taken");
  return { folder, backup, groupId, path: join(folder, databaseName) };
}

function openingError(folder: string): StoreError {
  try {
    openStore({ folder, now }).close();
  } catch (error) {
    if (error instanceof StoreError) return error;
    throw error;
  }
  throw new Error("The damaged file was opened");
}

const damages: readonly (readonly [what: string, damage: (path: string) => void])[] = [
  ["cut in half", (path) => truncateSync(path, Math.floor(readFileSync(path).length / 2))],
  ["cut to nothing", (path) => truncateSync(path, 0)],
  ["cut to less than a header", (path) => truncateSync(path, 50)],
  ["deleted", (path) => rmSync(path)],
  ["overwritten by another kind of file", (path) => writeFileSync(path, "PK".repeat(5_000))],
  ["overwritten in the middle", (path) => scribble(path, 3, 12)],
  ["overwritten at its first page", (path) => scribble(path, 0, 1)],
];

/** Random-looking bytes over whole pages. */
function scribble(path: string, fromPage: number, toPage: number): void {
  const bytes = readFileSync(path);
  for (let at = fromPage * 4096 + 200; at < toPage * 4096; at++) bytes[at] = (at * 31 + 7) % 251;
  writeFileSync(path, bytes);
}

test.each(damages)(
  "1. a data file %s is told in a sentence, with a backup to go on from",
  (_, damage) => {
    const { folder, backup, path } = filled();
    damage(path);
    const before = existsSync(path) ? readFileSync(path) : null;
    const error = openingError(folder);
    expect(error.problem).toBe("damaged");
    expect(error.message).toMatch(/damaged.*backup/);
    expect(error.backup).toBe(backup);
    expect(existsSync(path) ? readFileSync(path) : null).toEqual(before);
  },
);

test.each(damages)("2. a data file %s is kept when the backup is put in its place", (_, damage) => {
  const { folder, backup, groupId, path } = filled();
  damage(path);
  const damaged = existsSync(path) ? readFileSync(path) : null;
  const kept = restoreBackup(folder, backup, monday);
  expect(kept === null ? null : readFileSync(kept)).toEqual(damaged);
  expect(temporaryStore(folder).groups.get(groupId)?.name).toBe("Room 4");
});

test("3. damaged data without a good backup offers none, and says so every time", () => {
  const { folder, backup, path } = filled();
  writeFileSync(backup, "no backup any more");
  scribble(path, 3, 12);
  expect(openingError(folder).backup).toBeNull();
  expect(openingError(folder)).toMatchObject({ problem: "damaged", backup: null });
});

test("4. a backup copied by hand over the data file beside an old log is not mixed with it", () => {
  const { folder, backup, groupId, path } = filled();
  const store = openStore({ folder, now });
  store.groups.update(groupId, { name: "Later" });
  const log = readFileSync(`${path}-wal`);
  store.close();
  copyFileSync(backup, path);
  writeFileSync(`${path}-wal`, log);
  let name: string | undefined;
  try {
    name = temporaryStore(folder).groups.get(groupId)?.name;
  } catch (error) {
    expect(error).toMatchObject({ problem: "damaged" });
    return;
  }
  expect(["Room 4", "Later"]).toContain(name);
});
