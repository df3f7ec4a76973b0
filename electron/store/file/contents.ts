import Database from "better-sqlite3";
import { withStoreErrors } from "./store-error.ts";

/** What is in a data file or a backup, counted: enough to see which of two holds more. */
export interface Contents {
  readonly groups: number;
  readonly students: number;
  readonly sessions: number;
  /** Day of the newest session, YYYY-MM-DD; null when there is none. */
  readonly lastDay: string | null;
}

/**
 * Counts what a file holds, of whatever version.
 *
 * @throws StoreError when it cannot be read
 */
export function contentsOf(path: string): Contents {
  return withStoreErrors(() => {
    const file = new Database(path, { readonly: true, fileMustExist: true });
    try {
      return countContents(file);
    } finally {
      file.close();
    }
  });
}

/** The same of a file that is open. */
function countContents(file: Database.Database): Contents {
  const count = (table: string): number =>
    Number(file.prepare(`SELECT count(*) FROM ${table}`).pluck().get());
  const lastDay: unknown = file
    .prepare("SELECT max(day) FROM session WHERE kind <> 'practice'")
    .pluck()
    .get();
  return {
    groups: count("student_group"),
    students: count("student"),
    sessions: count("session"),
    lastDay: typeof lastDay === "string" ? lastDay : null,
  };
}
