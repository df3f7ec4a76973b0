import Database from "better-sqlite3";
import { withStoreErrors } from "./store-error.ts";

/** What is in the open file and not in a backup of it: what restoring would lose. */
export interface Lost {
  readonly sessions: number;
  readonly students: number;
  /** Of sessions that are in both: entries made since, such as cards typed in later. */
  readonly entries: number;
}

/**
 * @param live the open data
 * @param backup path of a backup of whatever version
 * @throws StoreError when the backup cannot be read
 */
export function lostByRestoring(live: Database.Database, backup: string): Lost {
  return withStoreErrors(() => {
    const file = new Database(backup, { readonly: true, fileMustExist: true });
    try {
      const then = entriesBySession(file);
      let sessions = 0;
      let entries = 0;
      for (const [id, count] of entriesBySession(live)) {
        const before = then.get(id);
        if (before === undefined) sessions += 1;
        else entries += Math.max(0, count - before);
      }
      const known = new Set(studentIds(file));
      return {
        sessions,
        entries,
        students: studentIds(live).filter((id) => !known.has(id)).length,
      };
    } finally {
      file.close();
    }
  });
}

function entriesBySession(file: Database.Database): Map<string, number> {
  const rows = file
    .prepare<[], { id: string; entries: number }>(
      `SELECT id, (SELECT count(*) FROM session_event WHERE session_number = number) AS entries
       FROM session WHERE kind <> 'practice'`,
    )
    .all();
  return new Map(rows.map(({ id, entries }) => [id, entries]));
}

const studentIds = (file: Database.Database): string[] =>
  file.prepare<[], string>("SELECT id FROM student").pluck().all();
