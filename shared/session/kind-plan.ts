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

/**
 * The plan that a session of this kind runs under.
 *
 * Seatwork runs as planned. A practice is short and dense whatever the plan, and keeps its chime,
 * volume and ways. Baseline and probe keep the plan's times, but cue the teacher alone: the class must
 * not be prompted while it is observed.
 */
export function planForKind(plan: PlanSettings, kind: SessionKind): PlanSettings {
  if (kind === "practice") return { ...plan, ...practice };
  if (kind === "seatwork") return plan;
  return { ...plan, cueing: "teacher" };
}
