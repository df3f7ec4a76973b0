import { type NotComputable, notComputable } from "../../statistics/computed.ts";
import type { Interval } from "../../statistics/result.ts";
import { serialTrend } from "../../statistics/serial-trend.ts";

/** One session's value on its day; days are whole numbers on any one calendar count. */
export interface DayPoint {
  readonly day: number;
  readonly value: number;
}

export interface PhaseTrend {
  readonly kind: "computed";
  /** Theil-Sen slope in the points' unit per 7 days, with its interval. */
  readonly slopePerWeek: number;
  readonly interval: Interval;
  /** Height of the line on a day: intercept + slopePerWeek * day / 7. */
  readonly intercept: number;
  /** Kendall's tau-b with time, and the two-sided Mann-Kendall probability. */
  readonly tau: number;
  readonly probability: number;
}

/**
 * What a phase needs before its trend is given: the slope per week of a few points over a few days may
 * have an interval too wide to say anything. Common practice, no source.
 */
export const trendRule = {
  fewestPoints: 5,
  /** Calendar days from the first point to the last, both counted. */
  fewestDays: 14,
} as const;

/**
 * Trend within one phase: how fast it rises or falls. Withheld from a phase that is shorter than
 * `trendRule` asks.
 *
 * Points are in any order. Sources: see `serialTrend`; the rule, as in `trendRule`.
 */
export function phaseTrend(
  points: readonly DayPoint[],
): PhaseTrend | NotComputable<"too-short-for-trend"> {
  if (isTooShort(points)) return notComputable("too-short-for-trend");
  const ordered = points.toSorted((one, other) => one.day - other.day);
  const found = serialTrend(
    ordered.map(({ day }) => day),
    ordered.map(({ value }) => value),
  );
  if (found.kind === "not-enough") return notComputable("too-short-for-trend");
  const { line, test } = found;
  return {
    kind: "computed",
    slopePerWeek: line.slope * 7,
    interval: { lower: line.interval.lower * 7, upper: line.interval.upper * 7 },
    intercept: line.intercept,
    tau: test.tau,
    probability: test.p,
  };
}

function isTooShort(points: readonly DayPoint[]): boolean {
  if (points.length < trendRule.fewestPoints) return true;
  const days = points.map(({ day }) => day);
  return Math.max(...days) - Math.min(...days) + 1 < trendRule.fewestDays;
}
