import { copyFileSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { expect, test } from "vitest";
import { databaseName, restoreBackup } from "../../../../../electron/store/file/backup.ts";
import { openStore, openStoreToRead } from "../../../../../electron/store/store.ts";
import { makeClass } from "../make-class.ts";
import { monday, temporaryFolder, temporaryStore } from "../temporary-folder.ts";

const now = () => monday;

/** A class whose backup was copied to a stick, and from which Pine was erased afterwards. */
function erasedAfterCopy() {
  const folder = temporaryFolder();
  const store = openStore({ folder, now });
  const { groupId, studentIds, sessionId } = makeClass(store);
  const [pine] = studentIds;
  const stamp = { atMs: 0, wallMs: monday, offsetMinutes: 0 };
  store.log.append(sessionId, { kind: "note", text: "Pine was tired" }, stamp);
  const stick = join(temporaryFolder(), "copy.sqlite");
  copyFileSync(store.backUpIfDue() ?? "", stick);
  store.eraseStudent(pine);
  store.close();
  return { folder, groupId, pine, sessionId, stick };
}

const names = (store: ReturnType<typeof openStore>, groupId: string): string[] =>
  store.students.listAll(groupId).map(({ name }) => name);

test("1. an erased student does not come back by a restore from a copy kept elsewhere", () => {
  const { folder, groupId, pine, sessionId, stick } = erasedAfterCopy();
  expect(readFileSync(stick).includes(pine)).toBe(true);
  restoreBackup(folder, stick, monday);
  const store = temporaryStore(folder);
  expect(names(store, groupId)).toEqual(["Otter"]);
  expect(store.log.lastEvent(sessionId)?.body).toEqual({ kind: "note", text: "… was tired" });
  store.close();
  const bytes = readFileSync(join(folder, databaseName));
  expect(bytes.includes(pine)).toBe(false);
  expect(bytes.includes("Pine")).toBe(false);
});

test("2. nor by a copy put over the data file by hand", () => {
  const { folder, groupId, stick } = erasedAfterCopy();
  for (const ending of ["-wal", "-shm"]) {
    rmSync(join(folder, databaseName + ending), { force: true });
  }
  copyFileSync(stick, join(folder, databaseName));
  expect(names(temporaryStore(folder), groupId)).toEqual(["Otter"]);
});

test("3. nor where the file is opened for reading only", () => {
  const { folder, groupId, stick } = erasedAfterCopy();
  copyFileSync(stick, join(folder, databaseName));
  const store = openStoreToRead({ folder, now }, "full");
  expect(names(store, groupId)).toEqual(["Otter"]);
  store.close();
  expect(readFileSync(join(folder, databaseName))).toEqual(readFileSync(stick));
});

test("4. the note says nothing of whom it is about, and is for the owner's eyes only", () => {
  const { folder, pine } = erasedAfterCopy();
  const path = join(folder, "erased.json");
  const text = readFileSync(path, "utf8");
  expect(text).not.toContain(pine);
  expect(text).not.toContain("Pine");
  expect(JSON.parse(text).hashes).toHaveLength(1);
  if (process.platform !== "win32") expect(statSync(path).mode & 0o777).toBe(0o600);
  // Another folder's salt gives the same student another hash.
  expect(JSON.parse(text).salt).not.toBe(
    JSON.parse(readFileSync(join(erasedAfterCopy().folder, "erased.json"), "utf8")).salt,
  );
});

test("5. an erasure that fails is no reason to erase at the next start", () => {
  const folder = temporaryFolder();
  const first = openStore({ folder, now });
  const { groupId, studentIds } = makeClass(first);
  first.close();
  const file = new Database(join(folder, databaseName));
  file.exec(`CREATE TRIGGER shut BEFORE DELETE ON student BEGIN SELECT RAISE (ABORT, 'shut'); END`);
  file.close();
  const store = openStore({ folder, now });
  expect(() => store.eraseStudent(studentIds[0])).toThrow();
  store.close();
  expect(names(temporaryStore(folder), groupId)).toEqual(["Pine", "Otter"]);
});

test("6. a note that cannot be understood keeps nobody out", () => {
  const { folder, groupId } = erasedAfterCopy();
  writeFileSync(join(folder, "erased.json"), "{");
  expect(names(temporaryStore(folder), groupId)).toEqual(["Otter"]);
});
