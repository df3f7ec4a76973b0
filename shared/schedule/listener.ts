import type { WaitingState } from "./best-catch.ts";
import type { IntervalLaw } from "./interval-law.ts";

/** The listener of `guess` is on the alert a quarter of the time. */
export const alertShare = 0.25;

/**
 * A listener without a clock is wrong about elapsed time by about this share of it (standard deviation).
 * From memory of the literature on scalar timing, which finds a tenth to a fifth.
 */
export const timingError = 0.15;

const edgeRatio = 1.05;

/** Steps of five percent from a hundredth of the mean to where hardly any wait is left. */
export function listenerEdges(law: IntervalLaw): number[] {
  const end = Math.min(law.longestSeconds * edgeRatio, law.meanSeconds * 14);
  const edges = [0];
  for (let edge = law.meanSeconds / 100; edge < end * edgeRatio; edge *= edgeRatio)
    edges.push(edge);
  return edges;
}

/**
 * The states as a listener without a clock perceives them: each state is felt as its neighbours too, by a
 * normal error in the logarithm of elapsed time.
 */
export function blurred(states: readonly WaitingState[]): WaitingState[] {
  const spread = timingError / Math.log(edgeRatio);
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
