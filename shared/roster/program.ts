import { z } from "zod";
import { idSchema } from "./roster.ts";

const day = z.iso.date();

/** Where a group's program stands: the goal, the ladder of means, and the rung it is on. */
export const programSchema = z.strictObject({
  groupId: idSchema,
  /** On-task rate to hold, 0 to 1. */
  goal: z.number().min(0.05).max(1),
  /** Means of the cue steps in seconds, densest first; the ladder's steps without cues follow them. */
  stepMeansSeconds: z.array(z.number().min(5).max(10_800)).min(1).max(12),
  /** Place on the ladder; 0 is the densest cues. */
  place: z.int().min(0).max(20),
  /** Whether a plan in use pays points for self-records; derived, never kept. */
  pointsPaid: z.boolean(),
  /** School-local day since which the program stands at this place. */
  placeSince: day,
  /** The moment of that day, ms since 1970 UTC; null for its first. */
  placeSinceMs: z.number().nullable(),
});
export type Program = z.infer<typeof programSchema>;

/** What of a program is kept. */
export type KeptProgram = Omit<Program, "pointsPaid">;

/**
 * A group's program with the hold goal of one student of it, who may have one set for them.
 *
 * @param student the student, or undefined for the group as a whole
 */
export function programFor<Held extends Pick<Program, "goal">>(
  program: Held,
  student: { readonly holdGoal: number | null } | undefined,
): Held {
  const goal = student?.holdGoal ?? null;
  return goal === null ? program : { ...program, goal };
}
