import { type Kendall, kendall } from "./kendall.ts";
import { criticalZ } from "./normal.ts";
import { type Interval, notEnough, type Result } from "./result.ts";
import { middleRanks, slopeSelector } from "./slope-selection.ts";
import { median, midpoint, type TimePoints } from "./time-points.ts";

export interface TheilSen {
  /** Median of the slopes of all pairs at different times, in units of y per unit of x. */
  readonly slope: number;
  /** median(y) - slope * median(x), Conover's choice. */
  readonly intercept: number;
  readonly interval: Interval;
  readonly pairs: number;
  /** The factor that was used. */
  readonly varianceFactor: number;
}

export interface TheilSenOptions {
  readonly confidence?: number;
  /** For serial correlation: 1 or more, or worked out from the slope once that is known. */
  readonly varianceFactor?: number | ((slope: number) => number);
  /** Kendall's S of the points where it has been worked out already. */
  readonly kendall?: Kendall;
}

/**
 * Theil-Sen line: the median of all pairwise slopes, which a few odd sessions cannot pull about.
 *
 * The interval is Sen's: the slopes whose ranks lie z * sqrt(Var S) / 2 to either side of the middle,
 * rounded to whole ranks as SciPy does, with ties in time and value in the variance and enlarged by
 * `varianceFactor` for serial correlation (see `serialCorrelationFactor`). With very few points it
 * ends at the steepest slopes seen. O(n log n) expected; see `slopeSelector`.
 *
 * Sources: Theil H (1950), Proc Kon Ned Akad Wetensch A 53:386-392, 521-525, 1397-1412; Sen PK (1968),
 * JASA 63:1379-1389; intercept of Conover WJ (1980), Practical Nonparametric Statistics, 2nd ed.
 *
 * Example: theilSen({ x: new Float64Array([0, 1, 2]), y: new Float64Array([0, 1, 4]) }).slope // 2
 */
export function theilSen(points: TimePoints, options: TheilSenOptions = {}): Result<TheilSen> {
  const { x, y } = points;
  if (x.length < 2) return notEnough("few-sessions", x.length, 2);
  const { pairs, variance } = options.kendall ?? kendall(points);
  if (pairs === 0) return notEnough("few-days", 1, 2);
  const { confidence = 0.95, varianceFactor = 1 } = options;
  const limitsFor = (factor: number): [number, number] => {
    const spread = criticalZ(confidence) * Math.sqrt(variance * factor);
    const lower = Math.min(Math.max(Math.round((pairs - spread) / 2), 1), Math.ceil(pairs / 2));
    return [lower - 1, pairs - lower];
  };
  const [low, high] = middleRanks(pairs);
  // The limits with a factor of 1 are the limits, or near them.
  const early = limitsFor(typeof varianceFactor === "number" ? varianceFactor : 1);
  const slopeAt = slopeSelector(points, pairs, [low, high, ...early]);
  const slope = midpoint(slopeAt(low), slopeAt(high));
  const factor = typeof varianceFactor === "number" ? varianceFactor : varianceFactor(slope);
  const [lower, upper] = limitsFor(factor);
  return {
    kind: "enough",
    slope,
    intercept: median(y) - slope * median(x),
    interval: { lower: slopeAt(lower), upper: slopeAt(upper) },
    pairs,
    varianceFactor: factor,
  };
}
