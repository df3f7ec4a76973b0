import type { Direction, Interval } from "../statistics/result.ts";

/** How firmly a change may be worded. */
export type Evidence = "clear" | "probable" | "cannot-tell";

/** The two confidence levels behind the wording. */
export const clearConfidence = 0.95;
export const probableConfidence = 0.8;

/**
 * The one rule for wording a change. Clear: the 95 % interval leaves out "no change". Probable: only
 * the 80 % interval does. Otherwise we cannot tell yet. A common practice in plain-language reports;
 * the levels have no published source and are stated on the page.
 */
export function evidenceOfChange(wide: Interval, narrow: Interval): Evidence {
  if (leavesOutZero(wide)) return "clear";
  if (leavesOutZero(narrow)) return "probable";
  return "cannot-tell";
}

/** The lesser of two pieces of evidence. */
export function weakerEvidence(a: Evidence, b: Evidence): Evidence {
  const order: readonly Evidence[] = ["cannot-tell", "probable", "clear"];
  return order.indexOf(a) < order.indexOf(b) ? a : b;
}

/** The same rule for a two-sided p value. */
export function evidenceOfP(p: number): Evidence {
  if (p <= 1 - clearConfidence) return "clear";
  // 1 - 0.8 is a hair below 0.2 in binary; a p of exactly 0.2 counts.
  if (p <= 0.2) return "probable";
  return "cannot-tell";
}

export function directionOf(change: number): Direction {
  if (change > 0) return "up";
  return change < 0 ? "down" : "level";
}

const leavesOutZero = (interval: Interval): boolean => interval.lower > 0 || interval.upper < 0;
