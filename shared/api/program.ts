import { z } from "zod";
import { procedure } from "./errors.ts";
import { idSchema } from "./roster.ts";

const day = z.iso.date();
const nothing = z.strictObject({});

/** A stretch of days on which the school is closed; both ends included. */
export const dayOffSchema = z.strictObject({
  id: idSchema,
  firstDay: day,
  lastDay: day,
  label: z.string().trim().max(60),
});
export type DayOff = z.infer<typeof dayOffSchema>;

/** The weekdays on which a group sits, 1 for Monday to 7 for Sunday. */
export const groupWeekdaysSchema = z.strictObject({
  groupId: idSchema,
  weekdays: z.array(z.int().min(1).max(7)).min(1).max(7),
});
export type GroupWeekdays = z.infer<typeof groupWeekdaysSchema>;

const timetableSchema = z.strictObject({ today: day, groups: z.array(groupWeekdaysSchema) });
export type Timetable = z.infer<typeof timetableSchema>;

export const calendar = {
  daysOff: procedure.output(z.array(dayOffSchema)),
  add: procedure.input(dayOffSchema.omit({ id: true })).output(dayOffSchema),
  remove: procedure.input(z.strictObject({ id: idSchema })).output(nothing),
  /** Today's school-local day, and on which weekdays each group sits; archived groups are among them. */
  timetable: procedure.output(timetableSchema),
  saveWeekdays: procedure.input(groupWeekdaysSchema).output(nothing),
};

/** Where a group's program stands: the goal, the ladder of means, and the rung it is on. */
export const programSchema = z.strictObject({
  groupId: idSchema,
  /** On-task rate to hold, 0 to 1. */
  goal: z.number().min(0.05).max(1),
  /** Means of the cue steps in seconds, densest first; the ladder's steps without cues follow them. */
  stepMeansSeconds: z.array(z.number().min(5).max(10_800)).min(1).max(12),
  /** Place on the ladder; 0 is the densest cues. */
  place: z.int().min(0).max(20),
  /** Whether points are paid for self-records. */
  pointsPaid: z.boolean(),
  /** School-local day since which the program stands at this place. */
  placeSince: day,
  /** The moment of that day, ms since 1970 UTC; null for its first. */
  placeSinceMs: z.number().nullable(),
});
export type Program = z.infer<typeof programSchema>;

export const program = {
  /** A group that never saved one gets the usual program. */
  get: procedure.input(z.strictObject({ groupId: idSchema })).output(programSchema),
  save: procedure
    .input(programSchema.omit({ placeSince: true, placeSinceMs: true }))
    .output(programSchema),
};

/** What working looks like and what it does not, in the teacher's words, for practising with a class. */
export const practiceExamplesSchema = z.strictObject({
  working: z.array(z.string().trim().min(1).max(200)).max(12),
  notWorking: z.array(z.string().trim().min(1).max(200)).max(12),
});
export type PracticeExamples = z.infer<typeof practiceExamplesSchema>;

export const practice = {
  examples: procedure.input(z.strictObject({ groupId: idSchema })).output(practiceExamplesSchema),
  saveExamples: procedure
    .input(z.strictObject({ groupId: idSchema, examples: practiceExamplesSchema }))
    .output(nothing),
};
