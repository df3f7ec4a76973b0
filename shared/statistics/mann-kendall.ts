import { exactUpperTail, type Kendall, kendall } from "./kendall.ts";
import { twoSidedTail } from "./normal.ts";
import type { TimePoints } from "./time-points.ts";

export interface MannKendall {
  readonly s: number;
  /** Variance of S without trend, ties and serial correlation included. */
  readonly variance: number;
  readonly tau: number;
  /** Standardised S, continuity corrected by 1; 0 when S or its variance is. */
  readonly z: number;
  /** Two-sided p value. */
  readonly p: number;
  /** `exact` counts all orders; `normal` uses z. */
  readonly method: "exact" | "normal";
}

const mostForExact = 50;

/**
 * Mann-Kendall test for a trend, two-sided.
 *
 * `varianceFactor` (1 or more) enlarges the variance for serial correlation, see
 * `serialCorrelationFactor`; `known` is Kendall's S of the points where it has been worked out
 * already. Without ties, without that factor and with at most 50 points the p value
 * is exact; otherwise it is normal with continuity correction. Always finite: with no points, or all
 * values equal, S = 0 and p = 1.
 *
 * Sources: Mann HB (1945), Econometrica 13:245-259; Kendall MG (1970), Rank Correlation Methods;
 * Gilbert RO (1987), Statistical Methods for Environmental Pollution Monitoring, chapter 16.
 *
 * Example: mannKendall({ x: new Float64Array([1, 2, 3]), y: new Float64Array([1, 3, 2]) }).s // 1
 */
export function mannKendall(
  points: TimePoints,
  varianceFactor = 1,
  known: Kendall = kendall(points),
): MannKendall {
  if (!(varianceFactor >= 1 && Number.isFinite(varianceFactor))) {
    throw new RangeError(`varianceFactor must be 1 or more; got ${varianceFactor}.`);
  }
  const n = points.x.length;
  const { s, tau, ties, variance: independent } = known;
  const variance = independent * varianceFactor;
  const z = variance === 0 || s === 0 ? 0 : (s - Math.sign(s)) / Math.sqrt(variance);
  const exact = !ties && varianceFactor === 1 && n >= 2 && n <= mostForExact;
  return {
    s,
    variance,
    tau,
    z,
    p: exact ? Math.min(1, 2 * exactUpperTail(n, Math.abs(s))) : twoSidedTail(z),
    method: exact ? "exact" : "normal",
  };
}
