import { z } from "zod";
import { idSchema } from "../roster/roster.ts";

/** Points that a day may earn, and cost, at most; common practice, no source. */
export const mostEarned = 20;
export const mostCost = 5;

const share = z.number().min(0.05).max(1);

export const contractGoalSchema = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("rate"),
    /** Share of marks on task, 0 to 1. */
    rate: share,
    /** Whose marks: the student's own, or what an adult saw at the spot checks. */
    measure: z.enum(["self", "adult"]),
  }),
  z.strictObject({
    kind: z.literal("work"),
    /** Of the assigned items those completed, 0 to 1. */
    completed: share,
    /** Of the completed ones those correct; null where that is not looked at. */
    correct: share.nullable(),
  }),
]);

export type ContractGoal = z.infer<typeof contractGoalSchema>;

/** What a contract says: written with the student, and not changed once it is made. */
export const contractTermsSchema = z
  .strictObject({
    /** For a young child, or for one who reads well. */
    wording: z.enum(["young", "older"]),
    goal: contractGoalSchema,
    /** Points of a day that met it; 0 for none. */
    points: z.int().min(0).max(mostEarned),
    /** What else it earns, in the student's words; empty for nothing. */
    earns: z.string().trim().max(120),
    /** Points that a day without it may cost; 0, as it is at first, for none. */
    cost: z.int().min(0).max(mostCost),
    /** Who looks whether it was met. */
    checkedBy: z.string().trim().min(1).max(60),
  })
  .refine(({ points, earns }) => points > 0 || earns !== "", "a contract earns something")
  .refine(({ goal, cost }) => cost === 0 || !isSelfRecorded(goal), "self-records never cost");
export type ContractTerms = z.infer<typeof contractTermsSchema>;

/** Whether the student's own marks are the measure: then nothing is ever taken. */
export const isSelfRecorded = (goal: ContractGoal): boolean =>
  goal.kind === "rate" && goal.measure === "self";

export const contractSchema = z.strictObject({
  id: idSchema,
  studentId: idSchema,
  terms: contractTermsSchema,
  /** First day that counts. */
  fromDay: z.iso.date(),
  /** When it is looked at together. */
  reviewOn: z.iso.date(),
  /** When both said yes; null until then. */
  signedOn: z.iso.date().nullable(),
  /** Last day that counts; null while it holds. */
  endedOn: z.iso.date().nullable(),
});
export type Contract = z.infer<typeof contractSchema>;

/**
 * Whether a contract counts on a day: it was signed, has begun and has not ended.
 *
 * Example: holdsOn({ fromDay: "2026-03-02", signedOn: null, endedOn: null }, "2026-03-03") // false
 */
export const holdsOn = (
  { fromDay, signedOn, endedOn }: Pick<Contract, "fromDay" | "signedOn" | "endedOn">,
  day: string,
): boolean => signedOn !== null && fromDay <= day && (endedOn === null || day <= endedOn);
