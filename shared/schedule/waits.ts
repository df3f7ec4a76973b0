import type { PlanSettings } from "../plan/plan.ts";
import type { WaitingState } from "./best-catch.ts";
import type { IntervalLaw } from "./interval-law.ts";

/** One stretch of waiting, from a cue (or the end of the lead-in) to a cue or to the last possible moment. */
export interface Wait {
  readonly seconds: number;
  readonly endedByCue: boolean;
}

/**
 * Cues and time lived between each two `edges` (ascending seconds since the last cue), per interval of
 * the law. Exact but for Simpson's rule on the survival function.
 */
export function statesOfLaw(law: IntervalLaw, edges: readonly number[]): WaitingState[] {
  return pairs(edges).map(([from, to]) => ({
    cues: law.survival(from) - law.survival(to),
    time: survivalArea(law, from, to),
  }));
}

/** The same, counted from waits: cues and seconds. */
export function statesOfWaits(waits: readonly Wait[], edges: readonly number[]): WaitingState[] {
  const bins = pairs(edges).map(([from, to]) => ({ from, to, cues: 0, time: 0 }));
  for (const { seconds, endedByCue } of waits) {
    for (const bin of bins) {
      if (seconds <= bin.from) break;
      bin.time += Math.min(seconds, bin.to) - bin.from;
      if (endedByCue && seconds <= bin.to) bin.cues += 1;
    }
  }
  return bins;
}

/**
 * The waits of one session: to each of its cues, and from the last of them to the end margin.
 *
 * Example: waitsBetween([100, 200], firstPlan).length // 3
 */
export function waitsBetween(cues: readonly number[], plan: PlanSettings): Wait[] {
  const starts = [plan.leadInSeconds, ...cues];
  const end = plan.lengthSeconds - plan.endMarginSeconds;
  return starts.map((start, index) => {
    const cue = cues[index];
    return { seconds: (cue ?? end) - start, endedByCue: cue !== undefined };
  });
}

const areaSteps = 8;

function survivalArea(law: IntervalLaw, from: number, to: number): number {
  const step = (to - from) / areaSteps;
  let sum = 0;
  for (let index = 0; index < areaSteps; index++) {
    const start = from + index * step;
    sum += law.survival(start) + 4 * law.survival(start + step / 2) + law.survival(start + step);
  }
  return (sum * step) / 6;
}

function pairs(edges: readonly number[]): [number, number][] {
  return edges.slice(1).map((to, index) => [edges[index] ?? 0, to]);
}
