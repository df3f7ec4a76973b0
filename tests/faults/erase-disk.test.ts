import { readFileSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { afterEach, expect, test, vi } from "vitest";
import * as durableFile from "../../electron/files/durable-file.ts";
import { listBackups, verifyBackup } from "../../electron/store/file/backup.ts";
import { makeClass } from "../unit/electron/store/make-class.ts";
import {
  monday,
  temporaryFolder,
  temporaryStore,
} from "../unit/electron/store/temporary-folder.ts";

vi.mock(import("../../electron/files/durable-file.ts"), { spy: true });
afterEach(() => vi.mocked(durableFile.renameDurably).mockReset());

const dayMs = 86_400_000;

/** A class with four daily backups, all of which hold the students. */
function backedUp() {
  const folder = temporaryFolder();
  let wallMs = monday;
  const store = temporaryStore(folder, () => wallMs);
  const { studentIds, groupId } = makeClass(store);
  for (let day = 0; day < 4; day += 1) {
    store.backUpIfDue();
    wallMs += dayMs;
  }
  return { folder, store, groupId, studentId: studentIds[0] };
}

const named = (folder: string): string[] => listBackups(folder).map(({ path }) => basename(path));

/** As a disk answers whose last bytes are taken: the sync of the finished copy fails. */
function failDisk(code: string): void {
  vi.mocked(durableFile.renameDurably).mockImplementation(() => {
    throw Object.assign(new Error(`${code}: no luck`), { code });
  });
}

test.each([
  ["ENOSPC", "full"],
  ["EIO", "failed"],
  ["EMFILE", "failed"],
  ["EACCES", "read-only"],
])(
  "1. erasing while the disk answers %s is refused, and every backup and the student stay",
  (code, problem) => {
    const { folder, store, groupId, studentId } = backedUp();
    const before = named(folder);
    const bytes = listBackups(folder).map(({ path }) => readFileSync(path));
    failDisk(code);
    expect(() => store.eraseStudent(studentId)).toThrow(expect.objectContaining({ problem }));
    expect(named(folder)).toEqual(before);
    expect(listBackups(folder).map(({ path }) => readFileSync(path))).toEqual(bytes);
    expect(store.students.list(groupId, false).map(({ name }) => name)).toEqual(["Pine", "Otter"]);

    vi.mocked(durableFile.renameDurably).mockReset();
    expect(store.eraseStudent(studentId)?.backups).toBe(4);
    expect(named(folder)).toEqual(before);
    for (const { path } of listBackups(folder)) verifyBackup(path);
  },
);

test("2. a broken backup is removed all the same, because it cannot be cleaned and helps nobody", () => {
  const { folder, store, studentId } = backedUp();
  const [newest, ...others] = listBackups(folder);
  if (newest === undefined) throw new Error("no backup");
  writeFileSync(newest.path, readFileSync(newest.path).subarray(0, 9_000));
  expect(store.eraseStudent(studentId)?.backups).toBe(4);
  expect(named(folder)).toEqual(others.map(({ path }) => basename(path)));
});

test("3. a copy that is left half written by a failure is cleared", () => {
  const { folder, store, studentId } = backedUp();
  failDisk("ENOSPC");
  expect(() => store.eraseStudent(studentId)).toThrow(/disk is full/);
  expect(named(folder)).toHaveLength(4);
  const left = readFileSync(join(folder, "backups", named(folder)[0] ?? ""));
  expect(left.subarray(0, 15).toString()).toBe("SQLite format 3");
});
