import { chmodSync, existsSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { expect, test } from "vitest";
import { databaseName } from "../../../../../electron/store/file/backup.ts";
import { applicationId, newestVersion } from "../../../../../electron/store/file/migrate.ts";
import { openDatabase } from "../../../../../electron/store/file/open-database.ts";
import {
  openStore,
  readRunning,
  removeRunning,
  StoreError,
  writeRunning,
} from "../../../../../electron/store/store.ts";
import { monday, temporaryFolder, temporaryStore } from "../temporary-folder.ts";

const now = () => monday;

function storeErrorOf(work: () => unknown): StoreError {
  try {
    work();
  } catch (error) {
    if (error instanceof StoreError) return error;
    throw error;
  }
  throw new Error("Nothing was thrown");
}

/** A database in the data file's place, set up by `fill` and closed. */
function plant(folder: string, fill: (database: Database.Database) => void): string {
  const path = join(folder, databaseName);
  const database = new Database(path);
  fill(database);
  database.close();
  return path;
}

test("1. makes a missing folder and an empty database of the newest version", () => {
  const folder = join(temporaryFolder(), "not", "there", "yet");
  temporaryStore(folder).close();
  const database = new Database(join(folder, databaseName), { readonly: true });
  expect(database.pragma("application_id", { simple: true })).toBe(applicationId);
  expect(database.pragma("user_version", { simple: true })).toBe(newestVersion);
  database.close();
});

test("2. runs on an SQLite without the write-ahead-log reset bug (fixed in 3.51.3, sqlite.org/wal.html)", () => {
  const database = new Database(":memory:");
  const version = String(database.prepare("SELECT sqlite_version()").pluck().get());
  database.close();
  const [major = 0, minor = 0, patch = 0] = version.split(".").map(Number);
  expect(major * 1e6 + minor * 1e3 + patch).toBeGreaterThanOrEqual(3_051_003);
});

test("3. sets up the connection for records that nobody can enter again", () => {
  const database = openDatabase(temporaryFolder(), monday);
  const read = (pragma: string) => database.pragma(pragma, { simple: true });
  expect(read("journal_mode")).toBe("wal");
  expect(read("synchronous")).toBe(2);
  expect(read("foreign_keys")).toBe(1);
  expect(read("busy_timeout")).toBe(5_000);
  expect(read("secure_delete")).toBe(1);
  expect(read("temp_store")).toBe(2);
  expect(read("ignore_check_constraints")).toBe(0);
  database.close();
});

test("4. refuses another program's database and leaves it as it was", () => {
  const folder = temporaryFolder();
  const path = plant(folder, (database) => database.exec("CREATE TABLE recipes (name TEXT)"));
  const before = readFileSync(path);
  const error = storeErrorOf(() => openStore({ folder, now }));
  expect(error.problem).toBe("foreign");
  expect(error.message).toMatch(/another program/);
  expect(readFileSync(path)).toEqual(before);
  expect(existsSync(`${path}-wal`)).toBe(false);
});

test("5. refuses a database with another application's id", () => {
  const folder = temporaryFolder();
  plant(folder, (database) => database.pragma("application_id = 1234"));
  expect(storeErrorOf(() => openStore({ folder, now })).problem).toBe("foreign");
});

test("6. refuses data of a newer version in a plain sentence and leaves it as it was", () => {
  const folder = temporaryFolder();
  temporaryStore(folder).close();
  const path = plant(folder, (database) => database.pragma(`user_version = ${newestVersion + 1}`));
  const before = readFileSync(path);
  const error = storeErrorOf(() => openStore({ folder, now }));
  expect(error.problem).toBe("newer");
  expect(error.message).toMatch(/newer version of Pebblechime/);
  expect(readFileSync(path)).toEqual(before);
});

test("7. lets one store at a time into a folder, and the next one once it is closed", () => {
  const folder = temporaryFolder();
  const first = temporaryStore(folder);
  const error = storeErrorOf(() => openStore({ folder, now }));
  expect(error.problem).toBe("folder-taken");
  expect(error.message).toMatch(/already running/);
  first.close();
  first.close();
  temporaryStore(folder);
});

test("8. frees the folder when opening fails", () => {
  const folder = temporaryFolder();
  const path = plant(folder, (database) => database.exec("CREATE TABLE recipes (name TEXT)"));
  expect(storeErrorOf(() => openStore({ folder, now })).problem).toBe("foreign");
  writeFileSync(path, "");
  temporaryStore(folder);
});

test.skipIf(process.platform === "win32")("9. keeps its files from other users", () => {
  const folder = join(temporaryFolder(), "data");
  const store = temporaryStore(folder);
  store.groups.create({ name: "Room 4", target: "", isSample: false }, monday);
  store.backUpIfDue();
  writeRunning(folder, { host: "loopback", address: "http://127.0.0.1:1/", joinSecret: "s" });
  const names = readdirSync(folder, { recursive: true, encoding: "utf8" });
  const open = names
    .map((name) => statSync(join(folder, name)))
    .filter((each) => each.isFile() && (each.mode & 0o077) !== 0);
  expect(open).toEqual([]);
  expect(names).toContain(`${databaseName}-wal`);
  expect(statSync(folder).mode & 0o077).toBe(0);
});

test("10. tells a second start how to join, and nothing once it is taken back or makes no sense", () => {
  const folder = temporaryFolder();
  expect(readRunning(folder)).toBeNull();
  const running = { host: "loopback", address: "http://127.0.0.1:4711", joinSecret: "x" } as const;
  writeRunning(folder, { ...running, address: null });
  writeRunning(folder, running);
  expect(readRunning(folder)).toEqual(running);
  writeFileSync(join(folder, "running.json"), '{"host":"moon"}');
  expect(readRunning(folder)).toBeNull();
  removeRunning(folder);
  removeRunning(folder);
  expect(readRunning(folder)).toBeNull();
});

test("11. replaces what another wrote into running.json, readable by the owner only", () => {
  const folder = temporaryFolder();
  const path = join(folder, "running.json");
  writeFileSync(path, "{}", { mode: 0o644 });
  chmodSync(path, 0o644);
  writeRunning(folder, { host: "electron", address: null, joinSecret: null });
  if (process.platform !== "win32") expect(statSync(path).mode & 0o777).toBe(0o600);
});
