import type { Connection } from "./connection.ts";

/** What a list of sessions says of one, without reading its whole log. */
export interface SessionOutline {
  /** Number of its newest event, 0 when there is none. */
  readonly lastSeq: number;
  readonly status: "running" | "paused" | "ended";
  readonly cuesDelivered: number;
  /** Ids of students with a mark that stands, a total, or an observation. */
  readonly recorded: ReadonlySet<string>;
  /** Ids of students who are set aside. */
  readonly setAside: ReadonlySet<string>;
  /** Why it is left out of every number; null while it counts. */
  readonly leftOutBecause: string | null;
}

/**
 * Outlines of sessions, by SQL. Reads the log as shared/session/reduce.ts does, of which a test makes
 * sure; folding 300 sessions of a large class takes seconds, in which no cue could be called.
 */
export function outlineRepository({ bare }: Connection) {
  const facts = bare.prepare<[string], { lastSeq: number | null; delivered: number }>(
    `SELECT
       (SELECT max(seq) FROM session_event WHERE session_number = session.number) AS lastSeq,
       (SELECT count(*) FROM (
          SELECT kind, min(seq) FROM session_event
          WHERE session_number = session.number AND kind IN ('delivered', 'undelivered')
          GROUP BY cue
        ) WHERE kind = 'delivered') AS delivered
     FROM session WHERE id = ?`,
  );
  const run = bare
    .prepare<[string], string>(
      `SELECT kind FROM session_event
       WHERE session_number = (SELECT number FROM session WHERE id = ?)
         AND kind IN ('begun', 'paused', 'resumed', 'ended')
       ORDER BY kind = 'ended' DESC, seq DESC LIMIT 1`,
    )
    .pluck();
  const recorded = bare
    .prepare<[{ id: string }], string>(
      `WITH log AS (
         SELECT * FROM session_event
         WHERE session_number = (SELECT number FROM session WHERE id = @id)
       )
       SELECT id FROM student WHERE number IN (
         SELECT student_number FROM log WHERE kind IN ('total', 'observed')
         UNION
         SELECT student_number FROM (
           SELECT student_number, value, max(seq) FROM log WHERE kind = 'mark'
           GROUP BY student_number, cue
         ) WHERE value <> 'none'
       )`,
    )
    .pluck();
  const setAside = bare
    .prepare<[string], string>(
      `SELECT id FROM student WHERE number IN (
         SELECT student_number FROM (
           SELECT student_number, kind, max(seq) FROM session_event
           WHERE session_number = (SELECT number FROM session WHERE id = ?)
             AND kind IN ('set-aside', 'back')
           GROUP BY student_number
         ) WHERE kind = 'set-aside'
       )`,
    )
    .pluck();

  const leftOut = bare
    .prepare<[string], string | null>(
      `SELECT iif(json_valid(detail), json_extract(detail, '$.reason'), iif(kind = 'left-out', '', NULL))
       FROM session_event
       WHERE session_number = (SELECT number FROM session WHERE id = ?)
         AND kind IN ('left-out', 'taken-in')
       ORDER BY seq DESC LIMIT 1`,
    )
    .pluck();

  return {
    of(sessionId: string): SessionOutline {
      const { lastSeq, delivered } = facts.get(sessionId) ?? { lastSeq: null, delivered: 0 };
      const kind = run.get(sessionId);
      return {
        lastSeq: lastSeq ?? 0,
        status: kind === "ended" || kind === "paused" ? kind : "running",
        cuesDelivered: delivered,
        recorded: new Set(recorded.all({ id: sessionId })),
        setAside: new Set(setAside.all(sessionId)),
        leftOutBecause: leftOut.get(sessionId) ?? null,
      };
    },
  };
}
export type Outlines = ReturnType<typeof outlineRepository>;
