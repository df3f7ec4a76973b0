import { mannKendall } from "../mann-kendall.ts";
import { theilSen } from "../theil-sen.ts";
import { timePoints } from "../time-points.ts";
import type { Interval } from "../types.ts";
import { type NotComputable, notComputable } from "./result.ts";

/** One session's value on its day; days are whole numbers on any one calendar count. */
export type DayPoint = { readonly day: number; readonly value: number };

export type PhaseTrend = {
  readonly kind: "computed";
  /** Theil-Sen slope in the points' unit per 7 days, with its interval. */
  readonly slopePerWeek: number;
  readonly interval: Interval;
  /** Height of the line on a day: intercept + slopePerWeek * day / 7. */
  readonly intercept: number;
  /** Kendall's tau-b with time, and the two-sided Mann-Kendall probability. */
  readonly tau: number;
  readonly probability: number;
};

/**
 * Trend within one phase: how fast it rises or falls. With fewer than five points no two-sided
 * probability can be .05 or less, so a short phase never shows a clear trend.
 *
 * Points are in any order. Sources: see `theilSen` and `mannKendall`.
 */
export function phaseTrend(
  points: readonly DayPoint[],
): PhaseTrend | NotComputable<"fewer-than-three-points" | "one-day-only"> {
  if (points.length < 3) return notComputable("fewer-than-three-points");
  const ordered = timePoints(
    points.map(({ day }) => day),
    points.map(({ value }) => value),
  );
  const line = theilSen(ordered);
  if (line.kind === "not-enough") return notComputable("one-day-only");
  const { tau, p } = mannKendall(ordered);
  return {
    kind: "computed",
    slopePerWeek: line.slope * 7,
    interval: { lower: line.interval.lower * 7, upper: line.interval.upper * 7 },
    intercept: line.intercept,
    tau,
    probability: p,
  };
}
