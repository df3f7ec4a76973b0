import { z } from "zod";
import { drawSchema } from "../phase/draw.ts";
import { phaseKinds } from "../phase/phase.ts";
import { probesSchema } from "../phase/probes.ts";
import { markValues, seenValues, sessionKinds } from "../session/event.ts";
import { procedure } from "./errors.ts";
import { dayOffSchema } from "./program.ts";
import { groupSchema, idSchema, studentSchema } from "./roster.ts";

const day = z.iso.date();

export const phaseSchema = z.strictObject({
  id: idSchema,
  groupId: idSchema,
  /** Null when the phase is the whole group's. */
  studentId: idSchema.nullable(),
  kind: z.enum(phaseKinds),
  label: z.string().trim().max(60),
  /** First school-local day; a phase lasts until the next one starts. */
  startsOn: day,
  /** Null when the first day was chosen. */
  draw: drawSchema.nullable(),
  /** Days drawn for probes; only a maintenance phase has any. */
  probes: probesSchema.nullable(),
});
export type Phase = z.infer<typeof phaseSchema>;

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

export const groupCountsSchema = z.strictObject({
  group: groupSchema,
  students: z.array(studentSchema),
  /** Ended sessions that count (practice does not), oldest first. */
  sessions: z.array(countedSessionSchema),
  counts: z.array(studentCountsSchema),
  checks: z.array(checkPairSchema),
  freeLooks: z.array(freeLookSchema),
  observerPairs: z.array(observerPairSchema),
  work: z.array(workDoneSchema),
  phases: z.array(phaseSchema),
  /** On which no session is expected. */
  daysOff: z.array(dayOffSchema),
  /** Today's school-local day on the desktop side's clock. */
  today: day,
});
export type GroupCounts = z.infer<typeof groupCountsSchema>;

/**
 * The desktop side counts; the page does the statistics with shared/analysis, off its UI thread. So the
 * numbers cross the border once and zooming or switching students asks for nothing.
 */
export const analysis = {
  counts: procedure.input(z.strictObject({ groupId: idSchema })).output(groupCountsSchema),
};

export const phases = {
  list: procedure.input(z.strictObject({ groupId: idSchema })).output(z.array(phaseSchema)),
  create: procedure.input(phaseSchema.omit({ id: true })).output(phaseSchema),
  update: procedure.input(phaseSchema.omit({ groupId: true, studentId: true })).output(phaseSchema),
  remove: procedure.input(z.strictObject({ id: idSchema })).output(z.strictObject({})),
};
