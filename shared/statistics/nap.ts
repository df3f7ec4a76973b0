import { type NotComputable, notComputable } from "./computed.ts";
import { criticalZ } from "./normal.ts";
import { countPairs } from "./pair-counts.ts";
import type { Interval } from "./result.ts";

export interface Nap {
  readonly kind: "computed";
  /** Chance that a point of B, drawn at random, is above one of A; .5 is no difference. */
  readonly value: number;
  readonly interval: Interval;
}

/**
 * Nonoverlap of all pairs: the share of all A-B pairs in which the B point is higher, ties counting one
 * half. From 0 to 1; the area under the ROC curve, and the Mann-Whitney U over all pairs. A trend that
 * was there already can make it 1.
 *
 * The interval is Newcombe's score-type interval ("method 5"): the values whose distance from the
 * estimate is at most z standard errors, the variance taken at the value itself by the Hanley-McNeil
 * formula with the two sample sizes exchanged and averaged. It stays in [0, 1], also at 0 and at 1. It
 * takes points as independent; session rates rarely quite are, so it is rather too short.
 *
 * Sources: Parker RI, Vannest KJ (2009) Behavior Therapy 40:357-367; Newcombe RG (2006) Statistics in
 * Medicine 25:559-573.
 *
 * Example: nap([1, 2, 3], [3, 4, 5]).value // 0.9444
 */
export function nap(
  a: readonly number[],
  b: readonly number[],
  confidence = 0.95,
): Nap | NotComputable<"empty-phase"> {
  if (a.length === 0 || b.length === 0) return notComputable("empty-phase");
  const { higher, tied, pairs } = countPairs(a, b);
  const value = (higher + tied / 2) / pairs;
  return {
    kind: "computed",
    value,
    interval: scoreInterval(value, a.length, b.length, confidence),
  };
}

function scoreInterval(value: number, m: number, n: number, confidence: number): Interval {
  const upperOf = (estimate: number) => farthest(estimate, m, n, criticalZ(confidence));
  return { lower: 1 - upperOf(1 - value), upper: upperOf(value) };
}

/** The greatest true value from which the estimate is no more than z standard errors away. */
function farthest(estimate: number, m: number, n: number, z: number): number {
  let inside = estimate;
  let outside = 1;
  // 60 halvings leave nothing to be told apart in double precision.
  for (let i = 0; i < 60; i += 1) {
    const middle = (inside + outside) / 2;
    if ((middle - estimate) ** 2 <= z * z * variance(middle, m, n)) inside = middle;
    else outside = middle;
  }
  return inside;
}

function variance(theta: number, m: number, n: number): number {
  const half = (m + n) / 2 - 1;
  const shared = (1 - theta) / (2 - theta) + theta / (1 + theta);
  return (theta * (1 - theta) * (1 + half * shared)) / (m * n);
}
