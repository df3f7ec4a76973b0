import { eq, sql } from "drizzle-orm";
import {
  type EventStamp,
  type SessionEvent,
  type SessionEventBody,
  sessionEventBodySchema,
} from "../../shared/session/event.ts";
import type { Connection } from "./connection.ts";
import { type Damage, damageFound } from "./damage.ts";
import { type EventRow, eventColumns, readEvents, type StudentIds, toFields } from "./event-row.ts";
import { inTransaction } from "./file/in-transaction.ts";
import { StoreError } from "./file/store-error.ts";
import { sessionEvent, student } from "./tables.ts";

/** When an event happened; the log gives it its number. */
export type UnnumberedStamp = Omit<EventStamp, "seq">;

/**
 * The append-only log of what happened in each session. An entry that cannot be read makes its session
 * `entry-damaged` until a `passed-over` names it.
 *
 * @param damage is told of what cannot be read
 */
export function sessionLogRepository(
  { bare, typed }: Connection,
  students: StudentIds,
  damage: Damage = damageFound(),
) {
  const appendAll = logWriter({ bare, typed });

  const ofSession = "session_number = (SELECT number FROM session WHERE id = @id)";
  const after = bare
    .prepare<[{ id: string; seq: number }], EventRow>(
      `SELECT ${eventColumns} FROM session_event WHERE ${ofSession} AND seq > @seq ORDER BY seq`,
    )
    .raw();
  const ofStudent = bare
    .prepare<[{ id: string; studentId: string }], EventRow>(
      `SELECT ${eventColumns} FROM session_event
       WHERE ${ofSession} AND (student_number IS NULL
         OR student_number = (SELECT number FROM student WHERE id = @studentId))
       ORDER BY seq`,
    )
    .raw();
  const last = bare
    .prepare<[{ id: string }], EventRow>(
      `SELECT ${eventColumns} FROM session_event WHERE ${ofSession} ORDER BY seq DESC LIMIT 1`,
    )
    .raw();
  const open = bare
    .prepare<[], string>(
      `SELECT id FROM session
       WHERE NOT EXISTS (
         SELECT 1 FROM session_event WHERE session_number = number AND kind = 'ended'
       )
       ORDER BY started_ms DESC`,
    )
    .pluck();
  const passedOver = bare
    .prepare<[string], number>(
      `SELECT json_extract(detail, '$.seq') FROM session_event
       WHERE session_number = (SELECT number FROM session WHERE id = ?)
         AND kind = 'passed-over' AND json_valid(detail)`,
    )
    .pluck();
  const moment = bare.prepare<[string], UnnumberedStamp>(
    `SELECT at_ms AS atMs, wall_ms AS wallMs, offset_minutes AS offsetMinutes FROM session_event
     WHERE session_number = (SELECT number FROM session WHERE id = ?) ORDER BY seq DESC LIMIT 1`,
  );

  function unreadable(sessionId: string, bad: readonly number[]): number[] {
    if (bad.length === 0) return [];
    const known = new Set(passedOver.all(sessionId));
    return bad.filter((seq) => !known.has(seq));
  }

  function readable(sessionId: string, rows: readonly EventRow[]): SessionEvent[] {
    const { events, bad } = readEvents(rows, students);
    const damaged = unreadable(sessionId, bad);
    if (damaged.length === 0) return events;
    damage.found(sessionId, damaged.length);
    throw new StoreError("entry-damaged");
  }

  return {
    appendAll,

    /** Writes one event; see `appendAll`. */
    append(sessionId: string, body: SessionEventBody, stamp: UnnumberedStamp): SessionEvent {
      const [event] = appendAll(sessionId, [body], stamp);
      if (event === undefined) throw new Error("The event was not written");
      return event;
    },

    /** The events of a session numbered above `seq`, in order; all of them from 0. */
    read: (sessionId: string, seq: number): SessionEvent[] =>
      readable(sessionId, after.all({ id: sessionId, seq })),

    /** The events of a session that are this student's or no student's, in order. */
    readOf: (sessionId: string, studentId: string): SessionEvent[] =>
      readable(sessionId, ofStudent.all({ id: sessionId, studentId })),

    lastEvent(sessionId: string): SessionEvent | null {
      return readable(sessionId, last.all({ id: sessionId }))[0] ?? null;
    },

    /** Numbers of the entries that cannot be read and that no `passed-over` names. */
    unreadable: (sessionId: string): number[] =>
      unreadable(sessionId, readEvents(after.all({ id: sessionId, seq: 0 }), students).bad),

    /** When the newest entry was made, which it says even if the rest of it cannot be read. */
    lastMoment: (sessionId: string): UnnumberedStamp | null => moment.get(sessionId) ?? null,

    /**
     * The newest session that has not ended, or null. After a crash it is the one to resume or close. One
     * that is known to be damaged stands in no other's way.
     */
    openSessionId: (): string | null => open.all().find((id) => !damage.has(id)) ?? null,
  };
}
export type SessionLog = ReturnType<typeof sessionLogRepository>;

/** Writes to the log, one event after the other. */
function logWriter({ bare, typed }: Connection) {
  const place = bare.prepare<[string], { number: number; last: number | null; erased: number }>(
    `SELECT number, erased_seq AS erased,
       (SELECT max(seq) FROM session_event WHERE session_number = session.number) AS last
     FROM session WHERE id = ?`,
  );
  const insert = typed
    .insert(sessionEvent)
    .values({
      sessionNumber: sql.placeholder("sessionNumber"),
      seq: sql.placeholder("seq"),
      kind: sql.placeholder("kind"),
      atMs: sql.placeholder("atMs"),
      wallMs: sql.placeholder("wallMs"),
      offsetMinutes: sql.placeholder("offsetMinutes"),
      studentNumber: sql.placeholder("studentNumber"),
      cue: sql.placeholder("cue"),
      value: sql.placeholder("value"),
      way: sql.placeholder("way"),
      late: sql.placeholder("late"),
      detail: sql.placeholder("detail"),
    })
    .prepare();
  const studentNumber = typed
    .select({ number: student.number })
    .from(student)
    .where(eq(student.id, sql.placeholder("id")))
    .prepare();

  function numberOf(studentId: string | null): number | null {
    if (studentId === null) return null;
    const found = studentNumber.get({ id: studentId });
    if (found === undefined) throw new Error("An event needs a student who was added first");
    return found.number;
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
      const at = place.get(sessionId);
      if (at === undefined) throw new Error("An event needs a session that was created first");
      const from = Math.max(at.last ?? 0, at.erased) + 1;
      return bodies.map((unchecked, index) => {
        const body = sessionEventBodySchema.parse(unchecked);
        const numbered = {
          seq: from + index,
          atMs: Math.round(stamp.atMs),
          wallMs: Math.round(stamp.wallMs),
          offsetMinutes: stamp.offsetMinutes,
        };
        const { studentId, ...fields } = toFields(body);
        const who = numberOf(studentId);
        insert.run({ sessionNumber: at.number, studentNumber: who, ...numbered, ...fields });
        return { stamp: numbered, body };
      });
    });
  }

  return appendAll;
}
