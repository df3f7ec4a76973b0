import { and, asc, desc, eq, gt, sql } from "drizzle-orm";
import {
  type EventStamp,
  type SessionEvent,
  type SessionEventBody,
  sessionEventBodySchema,
  sessionEventSchema,
} from "../../shared/session/event.ts";
import { type Connection, inTransaction } from "./connection.ts";
import { sessionEvent } from "./tables.ts";

/** When an event happened; the log gives it its number. */
export type UnnumberedStamp = Omit<EventStamp, "seq">;

type Row = typeof sessionEvent.$inferSelect;

/** The append-only log of what happened in each session. */
export function sessionLogRepository({ bare, typed }: Connection) {
  const numbers = bare.prepare<[string], { last: number | null; erased: number }>(
    `SELECT erased_seq AS erased,
       (SELECT max(seq) FROM session_event WHERE session_id = session.id) AS last
     FROM session WHERE id = ?`,
  );
  const insert = typed
    .insert(sessionEvent)
    .values({
      sessionId: sql.placeholder("sessionId"),
      seq: sql.placeholder("seq"),
      kind: sql.placeholder("kind"),
      atMs: sql.placeholder("atMs"),
      wallMs: sql.placeholder("wallMs"),
      offsetMinutes: sql.placeholder("offsetMinutes"),
      studentId: sql.placeholder("studentId"),
      cue: sql.placeholder("cue"),
      value: sql.placeholder("value"),
      way: sql.placeholder("way"),
      detail: sql.placeholder("detail"),
    })
    .prepare();

  function nextSeq(sessionId: string): number {
    const row = numbers.get(sessionId);
    if (row === undefined) throw new Error("An event needs a session that was created first");
    return Math.max(row.last ?? 0, row.erased) + 1;
  }

  /**
   * Writes events in order, all or none. When this returns they survive a crash of the program and of
   * the machine. Times are kept in whole ms.
   *
   * @returns the events as they were written, numbered on from the session's last one
   */
  function appendAll(
    sessionId: string,
    bodies: readonly SessionEventBody[],
    stamp: UnnumberedStamp,
  ): SessionEvent[] {
    return inTransaction(bare, () => {
      const from = nextSeq(sessionId);
      const events = bodies.map((body, index) => ({
        stamp: {
          seq: from + index,
          atMs: Math.round(stamp.atMs),
          wallMs: Math.round(stamp.wallMs),
          offsetMinutes: stamp.offsetMinutes,
        },
        body: sessionEventBodySchema.parse(body),
      }));
      for (const event of events) insert.run(toRow(sessionId, event));
      return events;
    });
  }

  return {
    appendAll,

    /** Writes one event; see `appendAll`. */
    append(sessionId: string, body: SessionEventBody, stamp: UnnumberedStamp): SessionEvent {
      const [event] = appendAll(sessionId, [body], stamp);
      if (event === undefined) throw new Error("The event was not written");
      return event;
    },

    /** The events of a session numbered above `after`, in order; all of them from 0. */
    read(sessionId: string, after: number): SessionEvent[] {
      return typed
        .select()
        .from(sessionEvent)
        .where(and(eq(sessionEvent.sessionId, sessionId), gt(sessionEvent.seq, after)))
        .orderBy(asc(sessionEvent.seq))
        .all()
        .map(toEvent);
    },

    lastEvent(sessionId: string): SessionEvent | null {
      const row = typed
        .select()
        .from(sessionEvent)
        .where(eq(sessionEvent.sessionId, sessionId))
        .orderBy(desc(sessionEvent.seq))
        .limit(1)
        .get();
      return row === undefined ? null : toEvent(row);
    },

    /** The newest session that has not ended, or null. After a crash this is the one to resume or close. */
    openSessionId(): string | null {
      const id: unknown = bare
        .prepare(
          `SELECT id FROM session
           WHERE NOT EXISTS (SELECT 1 FROM session_event WHERE session_id = id AND kind = 'ended')
           ORDER BY started_ms DESC LIMIT 1`,
        )
        .pluck()
        .get();
      return typeof id === "string" ? id : null;
    },
  };
}
export type SessionLog = ReturnType<typeof sessionLogRepository>;

const columns = ["studentId", "cue", "value", "way"] as const;

/** A field goes to its column when it has a value there, and to `detail` otherwise. */
export function toRow(sessionId: string, { stamp, body }: SessionEvent): Row {
  const { kind, ...fields } = body;
  const row: Row = {
    sessionId,
    kind,
    ...stamp,
    studentId: null,
    cue: null,
    value: null,
    way: null,
    detail: null,
  };
  const rest: Record<string, unknown> = {};
  for (const [name, value] of Object.entries(fields)) {
    const column = columns.find((each) => each === name);
    if (column === undefined || value === null) rest[name] = value;
    else Object.assign(row, { [column]: value });
  }
  return Object.keys(rest).length === 0 ? row : { ...row, detail: JSON.stringify(rest) };
}

export function toEvent(row: Row): SessionEvent {
  const { seq, atMs, wallMs, offsetMinutes, kind, detail } = row;
  const body: Record<string, unknown> = { kind };
  for (const column of columns) if (row[column] !== null) body[column] = row[column];
  if (detail !== null) Object.assign(body, JSON.parse(detail));
  return sessionEventSchema.parse({ stamp: { seq, atMs, wallMs, offsetMinutes }, body });
}
