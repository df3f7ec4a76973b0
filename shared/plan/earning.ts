import { z } from "zod";

const points = z.int().min(0).max(20);

/** What a session pays, in points. Nothing here can take points for an off-task mark. */
export const earningRulesSchema = z.strictObject({
  /** For each recorded mark, on or off: it pays to record. */
  mark: points,
  /** More for each on-task mark. */
  on: points,
  /** For each mark that equals a spot check of the same cue, yes or no alike. */
  match: points,
  /**
   * Once, when the session's on-task share reaches the student's own goal, or else `goalShare`, over at least
   * five marks.
   */
  goal: points,
  goalShare: z.number().min(0.05).max(1),
  /** For each item completed. */
  item: points,
  /** Once, when at least `workItems` items are completed. */
  workGoal: points,
  workItems: z.int().min(1).max(500),
  /** For each full minute of running session time in which the student is not set aside. */
  minute: points,
});
export type EarningRules = z.infer<typeof earningRulesSchema>;

/** Whether points can be taken back, within the guard; absent where they cannot, as it is at first. */
const takes = z.literal(true).optional();

/**
 * What a plan's sessions earn: nothing, the usual rule (whose worth of a match follows from how many cues
 * are checked, and is fixed when a session starts), or the teacher's own.
 */
export const earningSchema = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("none") }),
  z.strictObject({ kind: z.literal("usual"), rules: earningRulesSchema, takes }),
  z.strictObject({ kind: z.literal("own"), rules: earningRulesSchema, takes }),
]);
export type Earning = z.infer<typeof earningSchema>;

/** Whether an adult may take points back in a plan's sessions. */
export const takesPoints = (earning: Earning): boolean =>
  earning.kind !== "none" && earning.takes === true;

/** A new group's plans earn nothing until the teacher decides it. */
export const noEarning: Earning = { kind: "none" };

/** Rules that pay nothing: what others are written as differences from. */
export const noRules: EarningRules = {
  mark: 0,
  on: 0,
  match: 0,
  goal: 0,
  goalShare: 0.8,
  item: 0,
  workGoal: 0,
  workItems: 10,
  minute: 0,
};
