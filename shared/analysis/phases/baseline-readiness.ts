import { mannKendall } from "../../statistics/mann-kendall.ts";
import { theilSen } from "../../statistics/theil-sen.ts";
import { timePoints } from "../../statistics/time-points.ts";
import { type PointsStandard, phasePoints, pointsStandard } from "./points-standard.ts";
import type { DayPoint } from "./trend.ts";

/** When a baseline counts as already rising. Common practice, no source. */
const readinessRule = {
  /**
   * Chance, one-sided, at or below which a rise is taken as one. Looser than .05, because three points
   * cannot reach .05 and missing a rise costs more than watching another day: 1/6 for three rising in
   * a row, 4 of 5 pairs in order for four points.
   */
  risingAtMost: 0.2,
  /** A rise over the whole baseline of less than five points in a hundred is left alone. */
  smallestRise: 0.05,
} as const;

export interface BaselineReadiness {
  readonly decision: "ready" | "ready-with-reservations" | "not-yet";
  readonly reason:
    | "enough-and-steady"
    | "fewer-than-three-points"
    | "fewer-than-five-points"
    | "rising";
  readonly standard: PointsStandard;
  readonly points: number;
  /** Points still missing from three, and from five. */
  readonly missingFromFewest: number;
  readonly missingFromWanted: number;
  /** One-sided probability of so steady a rise by chance, and the fitted rise over the baseline; 0 to 1. */
  readonly risingProbability: number;
  readonly rise: number;
}

/**
 * Is there enough baseline to begin the program? At least three points, better five, and no trend in
 * the wanted direction: where the rate rises before the program, the program will seem to work.
 *
 * Values are on-task rates from 0 to 1, in any order; upward is wanted. A falling baseline does not hold
 * the program back. Sources: the counts as in `pointsStandard`; the rest as in `readinessRule`.
 */
export function baselineReadiness(points: readonly DayPoint[]): BaselineReadiness {
  const count = points.length;
  const { rise, risingProbability } = risingOf(points);
  const rising =
    count >= phasePoints.fewest &&
    risingProbability <= readinessRule.risingAtMost &&
    rise >= readinessRule.smallestRise - 1e-9;
  const standard = pointsStandard(count);
  return {
    ...decide(standard, rising),
    standard,
    points: count,
    missingFromFewest: Math.max(0, phasePoints.fewest - count),
    missingFromWanted: Math.max(0, phasePoints.wanted - count),
    risingProbability,
    rise,
  };
}

function decide(
  standard: PointsStandard,
  rising: boolean,
): Pick<BaselineReadiness, "decision" | "reason"> {
  if (standard === "does-not-meet")
    return { decision: "not-yet", reason: "fewer-than-three-points" };
  if (rising) return { decision: "not-yet", reason: "rising" };
  return standard === "meets"
    ? { decision: "ready", reason: "enough-and-steady" }
    : { decision: "ready-with-reservations", reason: "fewer-than-five-points" };
}

function risingOf(points: readonly DayPoint[]): { rise: number; risingProbability: number } {
  const ordered = timePoints(
    points.map(({ day }) => day),
    points.map(({ value }) => value),
  );
  const line = theilSen(ordered);
  if (line.kind === "not-enough") return { rise: 0, risingProbability: 1 };
  const days = (ordered.x.at(-1) ?? 0) - (ordered.x[0] ?? 0);
  const { s, p } = mannKendall(ordered);
  return { rise: line.slope * days, risingProbability: s > 0 ? p / 2 : 1 };
}
