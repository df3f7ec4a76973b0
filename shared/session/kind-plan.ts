import type { PlanSettings } from "../plan/plan.ts";
import type { SessionKind } from "./event.ts";

/** A practice lasts five minutes with a cue about every half minute; common practice, no source. */
const practice = {
  law: "exponential",
  meanSeconds: 30,
  shortestGapSeconds: 10,
  longestGapSeconds: null,
  lengthSeconds: 300,
  leadInSeconds: 0,
  endMarginSeconds: 0,
  fewestCues: 4,
} as const satisfies Partial<PlanSettings>;

/** How often, on average, an observer can be asked for a look, in seconds; common practice, no source. */
export const lookIntervals = [15, 20, 30, 60] as const;
export type LookInterval = (typeof lookIntervals)[number];

/** One student of six comes up about every two minutes, as often as the first plan asks a class. */
export const usualLookInterval: LookInterval = 20;

/** A look and its key take an observer less than this, in seconds; common practice, no source. */
const oneLook = 10;

/**
 * The plan that a session of this kind runs under.
 *
 * Seatwork runs as planned. A practice is short and dense whatever the plan, and keeps its chime,
 * volume and ways; it always cues the class, which is what is practised: silently under a silent plan
 * or one of own cues,
 * by sound under one that cues the teacher alone. Baseline and probe keep the plan's length, but cue the teacher alone: the class must
 * not be prompted while it is observed. Their looks go round the students in turn, so they come more often
 * than a class could be asked, still at moments nobody expects: how often moments are sampled moves the
 * spread of an on-task rate, not the rate.
 *
 * @param lookEverySeconds mean time between two looks of a baseline or probe, of one student or another
 */
export function planForKind(
  plan: PlanSettings,
  kind: SessionKind,
  lookEverySeconds: LookInterval = usualLookInterval,
): PlanSettings {
  if (kind === "practice") {
    const isSilent = plan.cueing === "silent" || plan.cueing === "own";
    return { ...plan, ...practice, cueing: isSilent ? "silent" : "sound" };
  }
  if (kind === "seatwork") return plan;
  return {
    ...plan,
    law: "exponential",
    meanSeconds: lookEverySeconds,
    shortestGapSeconds: Math.min(oneLook, lookEverySeconds / 2),
    longestGapSeconds: null,
    leadInSeconds: 0,
    endMarginSeconds: 0,
    fewestCues: 1,
    cueing: "teacher",
  };
}
