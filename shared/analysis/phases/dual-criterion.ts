import {
  type Computed,
  computed,
  type NotComputable,
  notComputable,
} from "../../statistics/computed.ts";
import { fairCoinUpperTail } from "../../statistics/exact/fair-coin.ts";
import { mean, sampleVariance } from "../../statistics/moments.ts";

/** Two lines carried on from baseline, and how phase B stands to them. */
export interface CriterionLines {
  /** Height of the level line. */
  readonly level: number;
  /** Height of the trend line at each point of A, then at each of B. */
  readonly trendInA: readonly number[];
  readonly trendInB: readonly number[];
  /** Points of B above both lines. */
  readonly above: number;
  readonly decision: "change-shown" | "no-change-shown" | "too-few-points";
}

export interface DualCriterion {
  readonly kind: "computed";
  /** The lines as baseline has them. */
  readonly dual: CriterionLines;
  /** Both lines moved up by a quarter of baseline's standard deviation. */
  readonly conservative: CriterionLines;
  /** Points of B that must lie above both lines; none exists for fewer than five points. */
  readonly needed: Computed | NotComputable<"fewer-than-five-points">;
}

const conservativeShift = 0.25;
const significance = 0.05;

/**
 * Dual-criterion and conservative dual-criterion lines: baseline's mean and its least-squares line,
 * carried on into phase B. A change upward is shown when the points of B above both lines are more than
 * a fair coin gives at .05, one-sided.
 *
 * Points are in time order, one step apart (session 1, 2, 3 ...), in any one unit. A point on a line is
 * not above it. The counts are the binomial ones at .05, not those printed in the 2003 article.
 *
 * Source: Fisher WW, Kelley ME, Lomas JE (2003) Journal of Applied Behavior Analysis 36:387-406.
 */
export function dualCriterion(
  a: readonly number[],
  b: readonly number[],
): DualCriterion | NotComputable<"fewer-than-three-points" | "empty-phase"> {
  if (a.length < 3) return notComputable("fewer-than-three-points");
  if (b.length === 0) return notComputable("empty-phase");

  const centre = mean(a);
  const slope = leastSquaresSlope(a);
  // The fitted line passes through the mean at baseline's middle session.
  const trendAt = (index: number) => centre + slope * (index - (a.length - 1) / 2);
  const needed = neededAbove(b.length);

  const linesMovedBy = (shift: number): CriterionLines => {
    const level = centre + shift;
    const trendInA = a.map((_, i) => trendAt(i) + shift);
    const trendInB = b.map((_, i) => trendAt(a.length + i) + shift);
    const above = b.filter(
      (value, i) => clearlyAbove(value, level) && clearlyAbove(value, trendInB[i] ?? level),
    ).length;
    return { level, trendInA, trendInB, above, decision: decide(above, needed) };
  };
  return {
    kind: "computed",
    dual: linesMovedBy(0),
    conservative: linesMovedBy(conservativeShift * Math.sqrt(sampleVariance(a))),
    needed,
  };
}

/**
 * The least count of `points` that a fair coin reaches or passes with probability at most .05. With
 * fewer than five points even all of them do not suffice.
 */
export function neededAbove(points: number): Computed | NotComputable<"fewer-than-five-points"> {
  if (fairCoinUpperTail(points, points) > significance)
    return notComputable("fewer-than-five-points");
  let tooFew = 0;
  let enough = points;
  while (enough - tooFew > 1) {
    const middle = (tooFew + enough) >> 1;
    if (fairCoinUpperTail(middle, points) <= significance) enough = middle;
    else tooFew = middle;
  }
  return computed(enough);
}

function decide(
  above: number,
  needed: Computed | NotComputable,
): "change-shown" | "no-change-shown" | "too-few-points" {
  if (needed.kind === "not-computable") return "too-few-points";
  return above >= needed.value ? "change-shown" : "no-change-shown";
}

function leastSquaresSlope(values: readonly number[]): number {
  const centre = mean(values);
  const middle = (values.length - 1) / 2;
  let together = 0;
  let alone = 0;
  values.forEach((value, i) => {
    together += (i - middle) * (value - centre);
    alone += (i - middle) ** 2;
  });
  return together / alone;
}

/** Rounding in a fitted line must not lift a point off a line that it lies on. */
function clearlyAbove(value: number, line: number): boolean {
  return value - line > 1e-9 * Math.max(Math.abs(value), Math.abs(line));
}
