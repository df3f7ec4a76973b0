import { type Bouts, switchingRate, trueRate } from "../../../shared/schedule/precision.ts";

// Closed forms for cues at independent, evenly spread moments, which is what exponential intervals without
// a shortest gap are once their number is given. Integrals of the autocovariance p (1 - p) e^(-r lag) of a
// two-state Markov process; worked out here and in the table of precision.test.ts checked against numpy.

/**
 * Variance of the true share of time on task in one session of `lengthSeconds`:
 * p(1-p) (2 / rT) [1 - (1 - e^(-rT)) / rT].
 */
export function trueShareVariance(bouts: Bouts, lengthSeconds: number): number {
  const p = trueRate(bouts);
  const spells = switchingRate(bouts) * lengthSeconds;
  return ((p * (1 - p) * 2) / spells) * (1 + Math.expm1(-spells) / spells);
}

/**
 * Variance of the share of marks on task at `cueCount` such cues: V + (p(1-p) - V) / n with V the
 * `trueShareVariance`.
 */
export function evenMomentsVariance(bouts: Bouts, lengthSeconds: number, cueCount: number): number {
  const p = trueRate(bouts);
  const share = trueShareVariance(bouts, lengthSeconds);
  return share + (p * (1 - p) - share) / cueCount;
}
