import type Database from "better-sqlite3";
import { migrations } from "../migrations/migrations.ts";

// Our own runner, because drizzle-kit writes neither STRICT tables nor `user_version`, and a list of
// applied files that must match exactly locks people out. One forward-only number cannot.

/** Marks a SQLite file as ours ("PbCh"), in its header. */
export const applicationId = 0x50624368;

/** The version this program writes; a file above it was written by a newer one. */
export const newestVersion = migrations.length;

/**
 * Takes the database from its version to the newest, each step in one transaction that also sets the
 * version, so that a crash leaves a whole version and never a half.
 *
 * @param steps all migrations from version 0 on; other than ours only in tests
 */
export function migrate(database: Database.Database, steps: readonly string[] = migrations): void {
  const from = readNumber(database, "user_version");
  steps.slice(from).forEach((sql, index) => {
    const step = () => {
      database.exec(sql);
      database.pragma(`application_id = ${applicationId}`);
      database.pragma(`user_version = ${from + index + 1}`);
    };
    database.transaction(step).exclusive();
  });
}

/** The value of a pragma that answers with one number. */
export function readNumber(database: Database.Database, pragma: string): number {
  const value: unknown = database.pragma(pragma, { simple: true });
  if (typeof value !== "number") throw new Error(`PRAGMA ${pragma} gave no number`);
  return value;
}
