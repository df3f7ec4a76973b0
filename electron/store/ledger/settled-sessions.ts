import type Database from "better-sqlite3";

/** How far the ledger has followed the logs of sessions that earn. */
export function settledSessions(bare: Database.Database) {
  const settledSeq = bare
    .prepare<[string], number>(
      "SELECT seq FROM settled WHERE session_number = (SELECT number FROM session WHERE id = ?)",
    )
    .pluck();
  const follow = bare.prepare<[string, number]>(
    `INSERT INTO settled (session_number, seq)
     VALUES ((SELECT number FROM session WHERE id = ?), ?)
     ON CONFLICT (session_number) DO UPDATE SET seq = excluded.seq`,
  );
  const earning = `kind = 'seatwork' AND import_id IS NULL
    AND iif(json_valid(plan), ifnull(json_extract(plan, '$.earning.kind'), 'none'), 'none') <> 'none'`;
  const earningSessions = bare
    .prepare<[], string>(`SELECT id FROM session WHERE ${earning} ORDER BY started_ms DESC`)
    .pluck();
  const unsettled = bare
    .prepare<[], string>(
      `SELECT id FROM session LEFT JOIN settled ON session_number = session.number
       WHERE ${earning}
         AND (SELECT max(seq) FROM session_event WHERE session_number = session.number)
           > ifnull(settled.seq, 0)
       ORDER BY started_ms`,
    )
    .pluck();
  const isImported = bare
    .prepare<[string], number>("SELECT 1 FROM session WHERE id = ? AND import_id IS NOT NULL")
    .pluck();

  return {
    /** The last event of a session that the ledger has followed; 0 for none. */
    settledSeq: (sessionId: string): number => settledSeq.get(sessionId) ?? 0,
    setSettled: (sessionId: string, seq: number): void => void follow.run(sessionId, seq),
    /** Sessions that earn and whose log is ahead of the ledger, oldest first. */
    unsettled: (): string[] => unsettled.all(),
    /** Sessions that earn, newest first. */
    earningSessions: (): string[] => earningSessions.all(),
    isImported: (sessionId: string): boolean => isImported.get(sessionId) !== undefined,
  };
}
