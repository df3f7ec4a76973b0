import { pairs, placesInOrder, runLengths, sortCountingInversions } from "./inversions.ts";
import type { TimePoints } from "./time-points.ts";

export interface Kendall {
  /** Kendall's S: pairs that rise less pairs that fall. */
  readonly s: number;
  /** Variance of S when there is no trend, with ties in time and in value. */
  readonly variance: number;
  /** Kendall's tau-b, from -1 to 1; 0 when all times or all values are equal. */
  readonly tau: number;
  /** Pairs at different times. */
  readonly pairs: number;
  /** Whether two times or two values are equal. */
  readonly ties: boolean;
}

/**
 * Kendall's S, its variance and tau-b in O(n log n).
 *
 * Source: Kendall MG (1970), Rank Correlation Methods, 4th ed., chapters 3 and 4 (the variance with
 * ties in both rankings); counted by Knight's merging (1966, JASA 61:436-439).
 *
 * Example: kendall({ x: new Float64Array([1, 2, 3]), y: new Float64Array([1, 3, 2]) }).s // 1
 */
export function kendall({ x, y }: TimePoints): Kendall {
  const n = x.length;
  const { order, inversions: falling } = sortCountingInversions(placesInOrder(n), y);
  const xTies = runLengths(n, (at) => x[at] === x[at - 1]);
  const yTies = runLengths(n, (at) => y[order[at] ?? 0] === y[order[at - 1] ?? 0]);
  // Points equal in both stand side by side.
  const bothTies = runLengths(n, (at) => x[at] === x[at - 1] && y[at] === y[at - 1]);
  const all = pairs(n);
  const xTied = sumOver(xTies, pairs);
  const yTied = sumOver(yTies, pairs);
  const bothTied = sumOver(bothTies, pairs);
  const s = all - xTied - yTied + bothTied - 2 * falling;
  const scale = Math.sqrt((all - xTied) * (all - yTied));
  return {
    s,
    variance: varianceOfS(n, xTies, yTies),
    tau: scale === 0 ? 0 : s / scale,
    pairs: all - xTied,
    ties: xTied + yTied > 0,
  };
}

function varianceOfS(n: number, xTies: readonly number[], yTies: readonly number[]): number {
  if (n < 2) return 0;
  const main = (t: number) => t * (t - 1) * (2 * t + 5);
  const triples = (t: number) => t * (t - 1) * (t - 2);
  const doubles = (t: number) => t * (t - 1);
  let variance = (main(n) - sumOver(xTies, main) - sumOver(yTies, main)) / 18;
  variance += (sumOver(xTies, doubles) * sumOver(yTies, doubles)) / (2 * n * (n - 1));
  if (n > 2) {
    variance += (sumOver(xTies, triples) * sumOver(yTies, triples)) / (9 * triples(n));
  }
  // Rounding may leave a hair when all values are equal, where the variance is exactly zero.
  return xTies[0] === n || yTies[0] === n ? 0 : Math.max(0, variance);
}

const sumOver = (sizes: readonly number[], term: (size: number) => number): number =>
  sizes.reduce((sum, size) => sum + term(size), 0);

/**
 * Exact P(S >= s) for n untied points without trend, by counting the orders with each number of
 * inversions. Meant for n up to 50, where the counts are still exact enough for 12 digits.
 *
 * Source: Kendall MG (1970), chapter 5; the recurrence counts inversions of permutations.
 *
 * Example: exactUpperTail(4, 4) // 0.1667
 */
export function exactUpperTail(n: number, s: number): number {
  if (!Number.isInteger(n) || n < 1 || n > 170) {
    throw new RangeError(`n must be a whole number from 1 to 170; got ${n}.`);
  }
  // Probability of each number of inversions; adding the m-th point adds 0 to m-1 of them evenly.
  let chances = [1];
  for (let m = 2; m <= n; m += 1) {
    const shorter = chances;
    let within = 0;
    const longer = Array.from({ length: shorter.length + m - 1 }, (_, inversions) => {
      within += (shorter[inversions] ?? 0) - (shorter[inversions - m] ?? 0);
      return within / m;
    });
    chances = longer;
  }
  // S = pairs - 2 * inversions, so S >= s means inversions <= (pairs - s) / 2.
  const most = Math.floor((pairs(n) - s) / 2);
  let tail = 0;
  for (let inversions = 0; inversions <= Math.min(most, chances.length - 1); inversions += 1) {
    tail += chances[inversions] ?? 0;
  }
  return Math.min(1, tail);
}
