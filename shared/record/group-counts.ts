import { z } from "zod";
import type { DayOff } from "../calendar/timetable.ts";
import type { Phase } from "../phase/phase.ts";
import { type Group, idSchema, type Student } from "../roster/roster.ts";
import { markValues, seenValues, sessionKinds } from "../session/event.ts";

const day = z.iso.date();

export const countedSessionSchema = z.strictObject({
  id: idSchema,
  kind: z.enum(sessionKinds),
  startedMs: z.number(),
  offsetMinutes: z.int(),
  day,
  meanSeconds: z.number(),
  /** What was worked on, as the session's plan says; empty when nobody said. */
  subject: z.string(),
  cuesDelivered: z.int(),
  note: z.string(),
});
export type CountedSession = z.infer<typeof countedSessionSchema>;

/** A session that the teacher left out of every number. */
export const leftOutSessionSchema = countedSessionSchema
  .pick({ id: true, kind: true, startedMs: true, offsetMinutes: true, day: true })
  .extend({ reason: z.string() });
export type LeftOutSession = z.infer<typeof leftOutSessionSchema>;

/** One number a session, in the order of the sessions; null where the student took no part. */
const column = z.array(z.int().min(0).nullable());
export const countColumnsSchema = z.strictObject({ on: column, off: column, missing: column });
export type CountColumns = z.infer<typeof countColumnsSchema>;

export const studentCountsSchema = z.strictObject({
  studentId: idSchema,
  self: countColumnsSchema,
  observer: countColumnsSchema,
});
export type StudentCounts = z.infer<typeof studentCountsSchema>;

/** One cue at which both the student and a watching adult said something. */
export const checkPairSchema = z.strictObject({
  studentId: idSchema,
  sessionId: idSchema,
  day,
  cue: z.int(),
  student: z.enum(markValues),
  seen: z.enum(seenValues),
  /** Answered after the next cue had come; absent when it was not. */
  late: z.literal(true).optional(),
});
export type CheckPair = z.infer<typeof checkPairSchema>;

/** What a teacher saw of a student outside any cue: a note, compared with nothing. */
export const freeLookSchema = z.strictObject({
  studentId: idSchema,
  sessionId: idSchema,
  seen: z.enum(seenValues),
});
export type FreeLook = z.infer<typeof freeLookSchema>;

/** Two observers' records of the same student and cue. */
export const observerPairSchema = z.strictObject({
  studentId: idSchema,
  sessionId: idSchema,
  cue: z.int(),
  first: z.enum(seenValues),
  second: z.enum(seenValues),
});

export const workDoneSchema = z.strictObject({
  studentId: idSchema,
  sessionId: idSchema,
  assigned: z.int(),
  completed: z.int(),
  correct: z.int().nullable(),
});
export type WorkDone = z.infer<typeof workDoneSchema>;

/** All that the logs of a group say in numbers. */
export const loggedCountsSchema = z.strictObject({
  /** Ended sessions that count (practice does not, nor what is left out), oldest first. */
  sessions: z.array(countedSessionSchema),
  /** Oldest first; nothing else here knows of them. */
  leftOut: z.array(leftOutSessionSchema),
  counts: z.array(studentCountsSchema),
  checks: z.array(checkPairSchema),
  freeLooks: z.array(freeLookSchema),
  observerPairs: z.array(observerPairSchema),
  work: z.array(workDoneSchema),
});
export type LoggedCounts = z.infer<typeof loggedCountsSchema>;

/** What else a reading of a group goes by; none of it comes out of the logs. */
export interface GroupFacts {
  readonly group: Group;
  readonly students: readonly Student[];
  readonly phases: readonly Phase[];
  /** On which no session is expected. */
  readonly daysOff: readonly DayOff[];
  /** Today's school-local day on the desktop side's clock. */
  readonly today: string;
}

export type GroupCounts = LoggedCounts & GroupFacts;
