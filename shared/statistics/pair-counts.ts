/** How the points of phase B compare with those of phase A, over every pair of one from each. */
export interface PairCounts {
  /** Pairs in which the B point is higher, equal, lower. */
  readonly higher: number;
  readonly tied: number;
  readonly lower: number;
  /** All pairs: points in A times points in B. */
  readonly pairs: number;
}

/**
 * Compares each point of B with each of A; higher means better. Points may be in any one unit. For
 * m points in A and n in B it takes O((m + n) log m): A is sorted once and each B point looked up.
 *
 * Example: countPairs([1, 2], [2, 3]) // { higher: 3, tied: 1, lower: 0, pairs: 4 }
 */
export function countPairs(a: readonly number[], b: readonly number[]): PairCounts {
  const sorted = Float64Array.from(a).sort();
  let higher = 0;
  let tied = 0;
  for (const value of b) {
    const below = countBelow(sorted, value, false);
    higher += below;
    tied += countBelow(sorted, value, true) - below;
  }
  const pairs = a.length * b.length;
  return { higher, tied, lower: pairs - higher - tied, pairs };
}

/** How many sorted values lie below the limit, or at or below it when `orAt`. */
function countBelow(sorted: Float64Array, limit: number, orAt: boolean): number {
  let from = 0;
  let to = sorted.length;
  while (from < to) {
    const middle = (from + to) >> 1;
    const value = sorted[middle] ?? 0;
    if (value < limit || (orAt && value === limit)) from = middle + 1;
    else to = middle;
  }
  return from;
}
