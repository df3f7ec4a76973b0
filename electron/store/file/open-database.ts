import { existsSync, statSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { migrations } from "../migrations/migrations.ts";
import { backUpNow, databaseName, newestGoodBackup } from "./backup.ts";
import { makePrivateFile } from "./folder-lock.ts";
import { applicationId, migrate, readNumber } from "./migrate.ts";
import { StoreError, withStoreErrors } from "./store-error.ts";

/** How long a statement waits for a lock before it fails, in ms. */
const busyTimeoutMs = 5_000;

/** Set in this order and read back, because SQLite ignores a pragma that it does not know. */
const settings: readonly (readonly [pragma: string, value: string, answer: string | number])[] = [
  ["journal_mode", "WAL", "wal"],
  // better-sqlite3 defaults to NORMAL in WAL, which may lose the last marks when the power goes.
  ["synchronous", "FULL", 2],
  // On macOS an ordinary sync stops at the drive's own cache; elsewhere these two do nothing.
  ["fullfsync", "ON", 1],
  ["checkpoint_fullfsync", "ON", 1],
  ["foreign_keys", "ON", 1],
  ["busy_timeout", String(busyTimeoutMs), busyTimeoutMs],
  // What an erasure deletes is overwritten, and nothing of it goes to a temporary file.
  ["secure_delete", "ON", 1],
  ["temp_store", "MEMORY", 2],
];

/**
 * Opens the data file in a folder whose lock is held: refuses what is not ours or is newer, sets the
 * connection up, checks the file, takes a backup if it is about to migrate, and migrates.
 *
 * @param nowMs wall clock, ms since 1970 UTC; names the backup
 * @param steps all migrations from version 0 on; other than ours only in tests
 * @param first what is done with a file of whatever version before it is backed up and migrated
 * @throws StoreError; the data is left as it was found
 */
export function openDatabase(
  folder: string,
  nowMs: number,
  steps: readonly string[] = migrations,
  first: (database: Database.Database) => void = () => {},
): Database.Database {
  const path = join(folder, databaseName);
  refuseEmptied(folder, path);
  let database: Database.Database | undefined;
  try {
    return withStoreErrors(() => {
      makePrivateFile(path);
      database = new Database(path, { timeout: busyTimeoutMs });
      refuseForeign(database, steps.length);
      setUp(database);
      checkPages(database);
      first(database);
      const version = readNumber(database, "user_version");
      if (version > 0 && version < steps.length) {
        backUpNow(database, folder, "before-migration", nowMs);
      }
      migrate(database, steps);
      return database;
    });
  } catch (error) {
    database?.close();
    if (error instanceof StoreError && error.problem === "damaged") {
      throw new StoreError("damaged", { cause: error, backup: newestGoodBackup(folder) });
    }
    throw error;
  }
}

/** SQLite takes an empty file for a new database; with backups beside it, it is a lost one. */
function refuseEmptied(folder: string, path: string): void {
  const emptied = !existsSync(path) || statSync(path).size === 0;
  if (!emptied) return;
  const backup = newestGoodBackup(folder);
  if (backup !== null) throw new StoreError("damaged", { backup });
}

/** @throws StoreError `foreign` or `newer` */
export function refuseForeign(database: Database.Database, newestVersion: number): void {
  const id = readNumber(database, "application_id");
  const version = readNumber(database, "user_version");
  const fresh = id === 0 && version === 0 && isEmpty(database);
  if (id !== applicationId && !fresh) throw new StoreError("foreign");
  if (version > newestVersion) throw new StoreError("newer");
}

function isEmpty(database: Database.Database): boolean {
  return database.prepare("SELECT count(*) FROM sqlite_schema").pluck().get() === 0;
}

function setUp(database: Database.Database): void {
  for (const [pragma, value, answer] of settings) {
    database.pragma(`${pragma} = ${value}`);
    const got: unknown = database.pragma(pragma, { simple: true });
    if (got !== answer) {
      throw new StoreError("failed", { cause: new Error(`PRAGMA ${pragma} is ${String(got)}`) });
    }
  }
}

/**
 * Looks for damage to the file. What CHECK constraints forbid was refused when it was written and is
 * looked for again in each backup; here, at every start, it would take ten times as long as the rest.
 */
export function checkPages(database: Database.Database): void {
  database.pragma("ignore_check_constraints = ON");
  const answer: unknown = database.pragma("quick_check(1)", { simple: true });
  database.pragma("ignore_check_constraints = OFF");
  if (answer !== "ok") throw new StoreError("damaged", { cause: new Error(String(answer)) });
}
