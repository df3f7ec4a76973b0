import type Database from "better-sqlite3";
import { type GivenTaken, sessionsLately } from "../../../shared/points/guard.ts";

/** What adults gave and took lately, which the guard of taking asks. */
export function givenAndTaken(bare: Database.Database) {
  const sums = `SELECT
      ifnull(sum(amount) FILTER (WHERE rule NOT IN ('taken', 'exchange') AND source <> 'opening'), 0) AS given,
      ifnull(-sum(amount) FILTER (WHERE rule = 'taken'), 0) AS taken
    FROM ledger_entry WHERE student_number = (SELECT number FROM student WHERE id = ?)`;
  const ofDay = bare.prepare<[string, string], GivenTaken>(`${sums} AND day = ?`);
  // What a session paid belongs to when it was held, however late its cards were typed in, and what takes a
  // press back to when that was pressed.
  const since = bare.prepare<[string, number], GivenTaken>(
    `${sums} AND CASE source
        WHEN 'session' THEN (SELECT started_ms FROM session WHERE id = source_key)
        WHEN 'reversal' THEN (SELECT pressed.wall_ms FROM ledger_entry AS pressed
          WHERE pressed.number = ledger_entry.reverses)
        ELSE wall_ms END >= ?`,
  );
  const latelyFrom = bare
    .prepare<[string, number], number>(
      `SELECT started_ms FROM session, (SELECT number AS who, group_id AS room FROM student WHERE id = ?)
       WHERE group_id = room AND kind = 'seatwork' AND EXISTS (
         SELECT 1 FROM session_event WHERE session_number = session.number AND student_number = who
           AND kind IN ('mark', 'total', 'pluses'))
       ORDER BY started_ms DESC LIMIT 1 OFFSET ?`,
    )
    .pluck();
  const lastTake = bare
    .prepare<[string], number | null>(
      `SELECT max(wall_ms) FROM ledger_entry
       WHERE student_number = (SELECT number FROM student WHERE id = ?)
         AND source = 'press' AND rule = 'taken'`,
    )
    .pluck();
  const stopped = bare
    .prepare<[string, string], number>(
      `SELECT 1 FROM session JOIN session_event ON session_number = session.number
       WHERE day = ? AND session_event.kind = 'points-stopped'
         AND student_number = (SELECT number FROM student WHERE id = ?) LIMIT 1`,
    )
    .pluck();

  return {
    /** Given and taken on a day, less what was taken back. */
    givenTakenOn: (studentId: string, day: string): GivenTaken =>
      ofDay.get(studentId, day) ?? { given: 0, taken: 0 },

    /** Given and taken since the tenth newest seatwork session in which the student took part. */
    givenTakenLately(studentId: string): GivenTaken {
      const fromMs = latelyFrom.get(studentId, sessionsLately - 1) ?? 0;
      return since.get(studentId, fromMs) ?? { given: 0, taken: 0 };
    },

    /** Wall clock of the newest take, ms since 1970 UTC; null when nothing was ever taken. */
    lastTakeMs: (studentId: string): number | null => lastTake.get(studentId) ?? null,

    /** Whether an adult stopped taking from a student in a session of this day. */
    isStopped: (studentId: string, day: string): boolean =>
      stopped.get(day, studentId) !== undefined,
  };
}
