import type Database from "better-sqlite3";
import { withErasureOpen } from "./erasing/erase.ts";
import { inTransaction } from "./file/in-transaction.ts";

/**
 * Takes out of the log what students marked, and what the teacher saw of them, in every practice that has
 * ended: a practice trains, and its marks are no record. When and how long a class practised stays.
 *
 * This is the one exception, beside an erasure, to a log that only grows. Keeping such marks for ever would
 * break the word given to the class; writing none at all would lose them to a reloaded page, and the match
 * score is computed from them. So they live until the next session begins or the app is opened again. A
 * backup taken in between holds them until it is rotated out.
 *
 * @returns how many events went
 */
export function forgetPractices(database: Database.Database): number {
  return inTransaction(database, () => {
    const practised = `SELECT session_number FROM session_event AS ending
      JOIN session ON session.number = ending.session_number
      WHERE ending.kind = 'ended' AND session.kind = 'practice'`;
    const goes = `student_number IS NOT NULL AND session_number IN (${practised})`;
    // The log never gives a number twice: watchers ask for what came after the last one they have.
    const kept = database
      .prepare(
        `UPDATE session SET erased_seq = max(erased_seq, gone.seq)
         FROM (SELECT session_number, max(seq) AS seq FROM session_event WHERE ${goes}
               GROUP BY session_number) AS gone
         WHERE gone.session_number = session.number`,
      )
      .run();
    if (kept.changes === 0) return 0;
    return withErasureOpen(
      database,
      () => database.prepare(`DELETE FROM session_event WHERE ${goes}`).run().changes,
    );
  });
}
