import type { WaitingState } from "./best-catch.ts";
import type { IntervalLaw } from "./interval-law.ts";

/** The listener of `guess` is on the alert a quarter of the time. */
export const alertShare = 0.25;

/**
 * A listener without a clock is wrong about elapsed time by about this share of it (standard deviation).
 * From memory of the literature on scalar timing, which finds a tenth to a fifth.
 */
export const timingError = 0.15;

/** How finely ages are told apart: each edge so many times the one before. */
export const ageSteps = {
  /** For laws whose waits are spread over a range. */
  usual: 1.05,
  /** For waits counted one by one from schedules of a law with few different ones. */
  counted: 1.01,
  /** For the blocks of the balanced law, of whose thousands of sets each is told apart. */
  blocks: 1.02,
  /** For laws with few different waits: a wait somewhere in a wide bin would look surer than it is. */
  fewWaits: 1.0025,
} as const;

/** Edges from a hundredth of the mean to where hardly any wait is left, each `step` times the one before. */
export function listenerEdges(law: IntervalLaw, step: number = ageSteps.usual): number[] {
  const end = Math.min(law.longestSeconds * ageSteps.usual, law.meanSeconds * 14);
  const edges = [0];
  for (let edge = law.meanSeconds / 100; edge < end * step; edge *= step) edges.push(edge);
  return edges;
}

/**
 * The states as a listener without a clock perceives them: each state is felt as its neighbours too, by a
 * normal error in the logarithm of elapsed time. `step` is that of the edges between the states.
 *
 * Example: blurred([{ cues: 1, time: 1 }]).length // 27
 */
export function blurred(
  states: readonly WaitingState[],
  step: number = ageSteps.usual,
): WaitingState[] {
  const spread = timingError / Math.log(step);
  const reach = Math.ceil(4 * spread);
  const felt = Array.from({ length: states.length + 2 * reach }, () => ({ cues: 0, time: 0 }));
  const offsets = Array.from({ length: 2 * reach + 1 }, (_, index) => index - reach);
  const weights = offsets.map((offset) => Math.exp(-0.5 * (offset / spread) ** 2));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  for (const [index, state] of states.entries()) {
    for (const [shift, weight] of weights.entries()) {
      const cell = felt[index + shift];
      if (cell === undefined) continue;
      cell.cues += (state.cues * weight) / total;
      cell.time += (state.time * weight) / total;
    }
  }
  return felt;
}
