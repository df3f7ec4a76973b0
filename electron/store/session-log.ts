import { and, asc, desc, eq, getTableColumns, gt, isNull, or, sql } from "drizzle-orm";
import { z } from "zod";
import {
  type EventStamp,
  type SessionEvent,
  type SessionEventBody,
  sessionEventBodySchema,
  sessionEventSchema,
} from "../../shared/session/event.ts";
import { type Connection, inTransaction } from "./connection.ts";
import { type Damage, damageFound } from "./damage.ts";
import { StoreError } from "./file/store-error.ts";
import { readableJson } from "./stored-json.ts";
import { session, sessionEvent, student } from "./tables.ts";

/** When an event happened; the log gives it its number. */
export type UnnumberedStamp = Omit<EventStamp, "seq">;

/**
 * The append-only log of what happened in each session. An entry that cannot be read makes its session
 * `entry-damaged` until a `passed-over` names it.
 *
 * @param damage is told of what cannot be read
 */
export function sessionLogRepository({ bare, typed }: Connection, damage: Damage = damageFound()) {
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

  const events = () =>
    typed
      .select({ ...getTableColumns(sessionEvent), studentId: student.id })
      .from(sessionEvent)
      .innerJoin(session, eq(session.number, sessionEvent.sessionNumber))
      .leftJoin(student, eq(student.number, sessionEvent.studentNumber));
  const after = events()
    .where(and(eq(session.id, sql.placeholder("id")), gt(sessionEvent.seq, sql.placeholder("seq"))))
    .orderBy(asc(sessionEvent.seq))
    .prepare();
  const ofStudent = events()
    .where(
      and(
        eq(session.id, sql.placeholder("id")),
        or(isNull(sessionEvent.studentNumber), eq(student.id, sql.placeholder("studentId"))),
      ),
    )
    .orderBy(asc(sessionEvent.seq))
    .prepare();
  const last = events()
    .where(eq(session.id, sql.placeholder("id")))
    .orderBy(desc(sessionEvent.seq))
    .limit(1)
    .prepare();
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

  function unreadable(sessionId: string, rows: readonly Row[]): number[] {
    const bad = rows.filter((row) => toEvent(row) === null).map(({ seq }) => seq);
    if (bad.length === 0) return [];
    const known = new Set(passedOver.all(sessionId));
    return bad.filter((seq) => !known.has(seq));
  }

  function readable(sessionId: string, rows: readonly Row[]): SessionEvent[] {
    const all = rows.map(toEvent);
    const events = all.filter((event) => event !== null);
    if (events.length === all.length) return events;
    const damaged = unreadable(sessionId, rows);
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
      const row = last.get({ id: sessionId });
      return row === undefined ? null : (readable(sessionId, [row])[0] ?? null);
    },

    /** Numbers of the entries that cannot be read and that no `passed-over` names. */
    unreadable: (sessionId: string): number[] =>
      unreadable(sessionId, after.all({ id: sessionId, seq: 0 })),

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

/** What an event says, as columns; `detail` is JSON of what has no column of its own. */
interface Fields {
  kind: string;
  studentId: string | null;
  cue: number | null;
  value: string | null;
  way: string | null;
  /** 0 or 1. */
  late: number | null;
  detail: string | null;
}
const columns = ["studentId", "cue", "value", "way", "late"] as const;

/** A field goes to its column when it has a value there, and to `detail` otherwise. */
function toFields({ kind, ...said }: SessionEventBody): Fields {
  const none = { studentId: null, cue: null, value: null, way: null, late: null, detail: null };
  const fields: Fields = { kind, ...none };
  const rest: Record<string, unknown> = {};
  for (const [name, value] of Object.entries(said)) {
    const column = columns.find((each) => each === name);
    if (column === undefined || value === null) rest[name] = value;
    else Object.assign(fields, { [column]: typeof value === "boolean" ? Number(value) : value });
  }
  if (Object.keys(rest).length > 0) fields.detail = JSON.stringify(rest);
  return fields;
}

type Row = Fields & EventStamp;

/** The event of a row, or null when it cannot be read. */
function toEvent(row: Row): SessionEvent | null {
  const { seq, atMs, wallMs, offsetMinutes, kind, detail, ...fields } = row;
  const rest = detail === null ? {} : readableJson(z.record(z.string(), z.unknown()), detail);
  if (rest === undefined) return null;
  const body: Record<string, unknown> = { kind };
  for (const column of columns) if (fields[column] !== null) body[column] = fields[column];
  if (fields.late !== null) body.late = fields.late === 1;
  Object.assign(body, rest);
  const stamp = { seq, atMs, wallMs, offsetMinutes };
  return sessionEventSchema.safeParse({ stamp, body }).data ?? null;
}
