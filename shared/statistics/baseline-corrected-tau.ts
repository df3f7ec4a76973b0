import { type NotComputable, notComputable } from "./computed.ts";
import { kendall } from "./kendall.ts";
import { mannKendall } from "./mann-kendall.ts";
import { theilSen } from "./theil-sen.ts";
import { timePoints } from "./time-points.ts";

export interface BaselineCorrectedTau {
  readonly kind: "computed";
  /** Kendall's tau-b between phase (0, 1) and value, from -1 to 1. */
  readonly value: number;
  /** Whether baseline's trend was taken off first, and the slope per session that was. */
  readonly corrected: boolean;
  readonly slopeTakenOff: number;
  /** Two-sided probability of baseline's trend. */
  readonly trendProbability: number;
}

const significance = 0.05;

/**
 * Tau of B against A once a trend already there in A is taken off. If Kendall's test finds a trend in A
 * at .05, A's Theil-Sen line is subtracted from every point of both phases; then tau-b of phase with
 * value. Without a trend, tau-b of the points as they are. Unlike `tau`, tau-b stays below 1 even
 * without any overlap, because points of one phase are ties in the other ranking.
 *
 * Points are in time order, one step apart (session 1, 2, 3 ...).
 *
 * Source: Tarlow KR (2017) Behavior Modification 41:427-467.
 *
 * Example: baselineCorrectedTau([3, 4, 3, 4], [7, 8, 7, 9]).value // 0.8
 */
export function baselineCorrectedTau(
  a: readonly number[],
  b: readonly number[],
): BaselineCorrectedTau | NotComputable<"fewer-than-three-points" | "empty-phase" | "all-equal"> {
  if (a.length < 3) return notComputable("fewer-than-three-points");
  if (b.length === 0) return notComputable("empty-phase");

  const baseline = timePoints(steps(a.length), a);
  const trendProbability = mannKendall(baseline).p;
  const corrected = trendProbability <= significance;
  const line = corrected ? theilSen(baseline) : undefined;
  const slopeTakenOff = line?.kind === "enough" ? line.slope : 0;

  const value = tauWithPhase(a, b, slopeTakenOff);
  return value === undefined
    ? notComputable("all-equal")
    : { kind: "computed", value, corrected, slopeTakenOff, trendProbability };
}

/**
 * tau-b of phase (0 for A, 1 for B) with the values less `slope` times the session's place; undefined
 * when all are equal. The line's height does not matter to a rank statistic, only its slope.
 *
 * Example: tauWithPhase([3, 4], [7, 8], 0) // 0.8165
 */
export function tauWithPhase(
  a: readonly number[],
  b: readonly number[],
  slope: number,
): number | undefined {
  const values = [...a, ...b];
  const residuals = withoutDust(values.map((value, i) => value - slope * i));
  if (new Set(residuals).size < 2) return undefined;
  const phase = values.map((_, i) => (i < a.length ? 0 : 1));
  return kendall(timePoints(phase, residuals)).tau;
}

/** Values on the line must stay ties after it is taken off, so the last digits are rounded away. */
function withoutDust(values: readonly number[]): number[] {
  const largest = values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  if (largest === 0) return values.map(() => 0);
  const grain = largest * 1e-10;
  return values.map((value) => Math.round(value / grain) * grain);
}

const steps = (count: number): number[] => Array.from({ length: count }, (_, i) => i);
