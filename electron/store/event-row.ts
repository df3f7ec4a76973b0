import { mostCues } from "../../shared/plan/most-cues.ts";
import { idSchema } from "../../shared/roster/roster.ts";
import {
  type MarkValue,
  type MarkWay,
  markValues,
  markWays,
  type SessionEvent,
  type SessionEventBody,
  sessionEventBodySchema,
} from "../../shared/session/event.ts";
import type { Connection } from "./connection.ts";

// The one place that knows how an event of a session lies in its row.

/** What an event says, as columns; `detail` is JSON of what has no column of its own. */
export interface EventFields {
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
export function toFields({ kind, ...said }: SessionEventBody): EventFields {
  const none = { studentId: null, cue: null, value: null, way: null, late: null, detail: null };
  const fields: EventFields = { kind, ...none };
  const rest: Record<string, unknown> = {};
  for (const [name, value] of Object.entries(said)) {
    const column = columns.find((each) => each === name);
    if (column === undefined || value === null) rest[name] = value;
    else Object.assign(fields, { [column]: typeof value === "boolean" ? Number(value) : value });
  }
  if (Object.keys(rest).length > 0) fields.detail = JSON.stringify(rest);
  return fields;
}

/** The columns of a row as `toEvent` takes them. */
export const eventColumns =
  "seq, kind, at_ms, wall_ms, offset_minutes, student_number, cue, value, way, late, detail";
export type EventRow = readonly [
  seq: number,
  kind: string,
  atMs: number,
  wallMs: number,
  offsetMinutes: number,
  student: number | null,
  cue: number | null,
  value: string | null,
  way: string | null,
  late: number | null,
  detail: string | null,
];

/** The event of a row, or null when it cannot be read. */
export function toEvent(row: EventRow, students: StudentIds): SessionEvent | null {
  const [seq, kind, atMs, wallMs, offsetMinutes, student, cue, value, way, late, detail] = row;
  if (!(seq >= 1 && atMs >= 0)) return null;
  const studentId = student === null ? null : students.of(student);
  const body =
    kind === "mark"
      ? markOf(studentId, cue, value, way, late, detail)
      : bodyOf({ kind, studentId, cue, value, way, late, detail });
  return body === null ? null : { stamp: { seq, atMs, wallMs, offsetMinutes }, body };
}

const knownValues = new Map<string | null, MarkValue>(markValues.map((value) => [value, value]));
const knownWays = new Map<string | null, MarkWay>(markWays.map((way) => [way, way]));

/** Nearly all of a log are marks: what the schema would say of one, said sooner. A test holds the two together. */
function markOf(
  studentId: string | null,
  cue: number | null,
  valueText: string | null,
  wayText: string | null,
  late: number | null,
  detail: string | null,
): SessionEventBody | null {
  const value = knownValues.get(valueText);
  const way = knownWays.get(wayText);
  if (studentId === null || cue === null || late === null || detail !== null) return null;
  if (!(cue >= 1 && cue <= mostCues) || value === undefined || way === undefined) return null;
  return { kind: "mark", studentId, cue, value, way, late: late === 1 };
}

/** What the columns say, whatever kind of event it is; null when that is no event of ours. */
function bodyOf({ kind, late, detail, ...fields }: EventFields): SessionEventBody | null {
  const body: Record<string, unknown> = { kind };
  for (const name of ["studentId", "cue", "value", "way"] as const) {
    if (fields[name] !== null) body[name] = fields[name];
  }
  if (late !== null) body.late = late === 1;
  if (detail !== null && !addDetail(body, detail)) return null;
  return sessionEventBodySchema.safeParse(body).data ?? null;
}

function addDetail(body: Record<string, unknown>, detail: string): boolean {
  try {
    const rest: unknown = JSON.parse(detail);
    if (typeof rest !== "object" || rest === null) return false;
    Object.assign(body, rest);
    return true;
  } catch (error) {
    if (error instanceof SyntaxError) return false;
    throw error;
  }
}

/** The events of a session's rows, and the numbers of those that cannot be read. */
export function readEvents(
  rows: readonly EventRow[],
  students: StudentIds,
): { readonly events: SessionEvent[]; readonly bad: number[] } {
  const events: SessionEvent[] = [];
  const bad: number[] = [];
  for (const row of rows) {
    const event = toEvent(row, students);
    if (event === null) bad.push(row[0]);
    else events.push(event);
  }
  return { events, bad };
}

/** Finds students' ids by their numbers, each asked for once. */
export interface StudentIds {
  /** Null where there is none; the same string each time, so that finding it in a map compares no letters. */
  of(number: number): string | null;
  /** After students were taken out: a number may be given again. */
  forget(): void;
}

export function studentIds({ bare }: Connection): StudentIds {
  const find = bare.prepare<[number], string>("SELECT id FROM student WHERE number = ?").pluck();
  const known = new Map<number, string | null>();
  return {
    of(number) {
      let id = known.get(number);
      if (id === undefined) {
        id = idSchema.safeParse(find.get(number)).data ?? null;
        known.set(number, id);
      }
      return id;
    },
    forget: () => known.clear(),
  };
}
