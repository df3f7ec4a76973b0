import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import Database from "better-sqlite3";
import { expect, test } from "vitest";
import {
  type Backup,
  type BackupKind,
  backUpNow,
  databaseName,
  expired,
  listBackups,
  newestGoodBackup,
  restoreBackup,
  verifyBackup,
} from "../../../../../electron/store/file/backup.ts";
import { openDatabase } from "../../../../../electron/store/file/open-database.ts";
import { openStore, StoreError } from "../../../../../electron/store/store.ts";
import { makeClass } from "../make-class.ts";
import { monday, temporaryFolder, temporaryStore } from "../temporary-folder.ts";

const hourMs = 3_600_000;
const dayMs = 24 * hourMs;

test("1. takes a whole, verified copy of a store in use", () => {
  const folder = temporaryFolder();
  const store = temporaryStore(folder);
  const { groupId } = makeClass(store);
  const path = store.backUpIfDue();
  if (path === null) throw new Error("No backup was taken");
  expect(basename(path)).toBe("20260302T100000000Z-daily.pebblechime");
  verifyBackup(path);
  const copy = new Database(path, { readonly: true });
  expect(copy.prepare("SELECT id FROM student_group").pluck().all()).toEqual([groupId]);
  copy.close();
  expect(readdirSync(join(folder, "backups"))).toEqual([basename(path)]);
});

test("2. takes the daily backup once a day, also after the clock was set back", () => {
  let wallMs = monday;
  const store = temporaryStore(temporaryFolder(), () => wallMs);
  expect(store.backUpIfDue()).not.toBeNull();
  expect(store.backUpIfDue()).toBeNull();
  wallMs = monday + dayMs - 1;
  expect(store.backUpIfDue()).toBeNull();
  wallMs = monday + dayMs;
  expect(store.backUpIfDue()).not.toBeNull();
  wallMs = monday - 300 * dayMs;
  expect(store.backUpIfDue()).not.toBeNull();
});

test("3. keeps seven days, then one for each of four weeks, and those before migrations", () => {
  const named = (takenMs: number, kind: BackupKind): Backup => ({
    path: `${kind} ${takenMs}`,
    kind,
    takenMs,
  });
  const daily = Array.from({ length: 60 }, (_, ago) => named(monday - ago * dayMs, "daily"));
  const migration = named(monday - 400 * dayMs, "before-migration");
  const dropped = new Set(expired([...daily, migration]));
  expect(dropped.has(migration)).toBe(false);
  const kept = daily.filter((backup) => !dropped.has(backup));
  expect(kept.slice(0, 7)).toEqual(daily.slice(0, 7));
  expect(kept).toHaveLength(11);
  const gaps = kept.slice(7).map(({ takenMs }, index, all) => {
    const next = all[index + 1];
    return next === undefined ? 7 : (takenMs - next.takenMs) / dayMs;
  });
  for (const gap of gaps.slice(1)) expect(gap).toBe(7);
});

test("4. rotates by itself: after 100 days of daily use eleven backups are there", () => {
  const folder = temporaryFolder();
  let wallMs = monday;
  const store = temporaryStore(folder, () => wallMs);
  for (let day = 0; day < 100; day++) {
    store.backUpIfDue();
    wallMs += dayMs;
  }
  const kept = listBackups(folder);
  expect(kept).toHaveLength(11);
  const oldest = kept.at(-1)?.takenMs ?? 0;
  expect((wallMs - oldest) / dayMs).toBeGreaterThanOrEqual(7 + 3 * 7);
});

test("5. offers the newest backup that passes its checks, not the newest file", () => {
  const folder = temporaryFolder();
  const database = openDatabase(folder, monday);
  const good = backUpNow(database, folder, "daily", monday);
  const bad = backUpNow(database, folder, "daily", monday + dayMs);
  database.close();
  const bytes = readFileSync(bad);
  writeFileSync(bad, bytes.subarray(0, bytes.length / 2));
  expect(() => verifyBackup(bad)).toThrow(StoreError);
  expect(newestGoodBackup(folder)).toBe(good);
});

test("6. refuses to call another program's database a backup", () => {
  const folder = temporaryFolder();
  const path = join(folder, "other.sqlite");
  const other = new Database(path);
  other.exec("CREATE TABLE recipes (name TEXT)");
  other.close();
  expect(() => verifyBackup(path)).toThrow(/another program/);
});

test("7. finds broken references that a page check does not see", () => {
  const folder = temporaryFolder();
  const store = temporaryStore(folder);
  makeClass(store);
  const path = store.backUpIfDue();
  if (path === null) throw new Error("No backup was taken");
  const copy = new Database(path);
  copy.pragma("foreign_keys = OFF");
  copy.exec("DELETE FROM student_group");
  copy.close();
  expect(() => verifyBackup(path)).toThrow(/damaged/);
});

test("8. restores a backup and keeps the replaced file whole, under a name that says so", () => {
  const folder = temporaryFolder();
  const first = openStore({ folder, now: () => monday });
  const { groupId } = makeClass(first);
  const backup = first.backUpIfDue();
  if (backup === null) throw new Error("No backup was taken");
  first.groups.update(groupId, { name: "After the backup" });
  first.close();
  const replaced = readFileSync(join(folder, databaseName));

  const kept = restoreBackup(folder, backup, monday + hourMs);
  if (kept === null) throw new Error("The replaced file was not kept");
  expect(basename(kept)).toBe("pebblechime-damaged-20260302T110000000Z.sqlite");
  expect(readFileSync(kept)).toEqual(replaced);
  expect(existsSync(backup)).toBe(true);
  expect(temporaryStore(folder).groups.get(groupId)?.name).toBe("Room 4");
});

test("9. does not restore under an open store, nor from a bad backup; nothing changes then", () => {
  const folder = temporaryFolder();
  const store = openStore({ folder, now: () => monday });
  const { groupId } = makeClass(store);
  const backup = store.backUpIfDue();
  if (backup === null) throw new Error("No backup was taken");
  expect(() => restoreBackup(folder, backup, monday)).toThrow(/already running/);
  store.close();
  writeFileSync(backup, "not a database, but long enough to be read as one".repeat(200));
  expect(() => restoreBackup(folder, backup, monday)).toThrow(/damaged/);
  expect(temporaryStore(folder).groups.get(groupId)?.name).toBe("Room 4");
});

test("10. leaves no half backup when it fails, and clears what a crash left", () => {
  const folder = temporaryFolder();
  const store = temporaryStore(folder);
  const path = store.backUpIfDue();
  if (path === null) throw new Error("No backup was taken");
  writeFileSync(`${path}.partial`, "half");
  writeFileSync(`${path}.partial-journal`, "half");
  const database = new Database(join(folder, databaseName));
  backUpNow(database, folder, "before-migration", monday);
  expect(() => backUpNow(database, join(folder, databaseName), "daily", monday)).toThrow();
  database.close();
  const names = readdirSync(join(folder, "backups"));
  expect(names.filter((name) => name.includes("partial"))).toEqual([]);
  expect(names).toHaveLength(2);
});
