import { z } from "zod";
import type { AdviceDecision as AdviceKind } from "../analysis/advice.ts";
import { procedure } from "./errors.ts";
import { idSchema } from "./roster.ts";

const day = z.iso.date();
const adviceKinds = [
  "not-enough-data",
  "check-honesty",
  "step-back",
  "keep-going",
  "thin-cues",
  "end-cues-and-probe",
] as const satisfies readonly AdviceKind[];
const nothing = z.strictObject({});

/** A stretch of days on which the school is closed; both ends included. */
export const dayOffSchema = z.strictObject({
  id: idSchema,
  firstDay: day,
  lastDay: day,
  label: z.string().trim().max(60),
});
export type DayOff = z.infer<typeof dayOffSchema>;

export const calendar = {
  daysOff: procedure.output(z.array(dayOffSchema)),
  add: procedure.input(dayOffSchema.omit({ id: true })).output(dayOffSchema),
  remove: procedure.input(z.strictObject({ id: idSchema })).output(nothing),
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
});
export type Program = z.infer<typeof programSchema>;

export const program = {
  /** A group that never saved one gets the usual program. */
  get: procedure.input(z.strictObject({ groupId: idSchema })).output(programSchema),
  save: procedure.input(programSchema.omit({ placeSince: true })).output(programSchema),
};

/** What the teacher did with one piece of advice; kept so that a later reader knows why a plan changed. */
export const adviceDecisionSchema = z.strictObject({
  id: idSchema,
  groupId: idSchema,
  /** Null when the advice was about the whole group. */
  studentId: idSchema.nullable(),
  advice: z.enum(adviceKinds),
  accepted: z.boolean(),
  note: z.string().trim().max(500),
  decidedMs: z.number(),
  day,
});
export type AdviceDecision = z.infer<typeof adviceDecisionSchema>;

export const advice = {
  decisions: procedure
    .input(z.strictObject({ groupId: idSchema }))
    .output(z.array(adviceDecisionSchema)),
  decide: procedure
    .input(adviceDecisionSchema.omit({ id: true, decidedMs: true, day: true }))
    .output(adviceDecisionSchema),
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
