/*
 * Least squares with errors of which neighbours are alike (first-order autoregression), in O(points).
 *
 * Point i has weight w_i; its error has variance phi / w_i, and errors j places apart have correlation r^j.
 * Everything here works on the values times the square root of their weight, where the errors have one
 * variance, phi, and correlation matrix R. Points are in order of time; the distance is counted in points.
 */

/** What is known beforehand of how alike neighbouring sessions are, and how many sessions that is worth. */
export const serialPrior = { correlation: 0.2, worth: 20 } as const;

/** Errors that are never quite the same value over again. */
const mostAlike = 0.95;

/**
 * c' R c for the autoregression's correlation matrix R: the sum of c_i c_j r^|i-j|.
 *
 * Example: serialForm([0.5, 0.5], 0.2) // 0.6
 */
export function serialForm(contrast: ArrayLike<number>, r: number): number {
  let sum = 0;
  let carried = 0;
  for (let at = 0; at < contrast.length; at += 1) {
    const value = contrast[at] ?? 0;
    sum += value * (value + 2 * carried);
    carried = r * (carried + value);
  }
  return sum;
}

export interface SerialFit {
  /** Correlation of neighbouring errors, drawn toward `serialPrior`; 0 or more. */
  readonly r: number;
  /** Variance of an error of weight 1, unbiased given r. May be below what the caller knows it to be. */
  readonly phi: number;
  /** Points less coefficients. */
  readonly degrees: number;
}

/**
 * Measures the errors that a least-squares fit leaves.
 *
 * r: the residuals' lag-one correlation r1, its bias taken off to first order, r* = (n r1 + k) / (n - 4)
 * for k coefficients, then drawn toward what is known of such records, r = (n r* + 20 x .2) / (n + 20). A
 * negative r counts as 0, so that no statement is surer than for independent sessions. phi: the residual
 * sum of squares over its expectation given r, n less the sum of q' R q over an orthonormal basis of the fit.
 *
 * Sources: bias, Marriott FHC, Pope JA (1954), Biometrika 41:390-402, and Kendall MG (1954) there 403-404,
 * extended to k coefficients (each takes 1/n more; Huitema BE, McKean JW (1991), Psychological Bulletin
 * 110:291-304); mean of .2 over published single-case series: Shadish WR, Sullivan KJ (2011), Behavior
 * Research Methods 43:971-980 (all from memory). How much the prior is worth: chosen by simulation, see
 * `npm run bench:calibration`.
 *
 * @param residuals what the fit leaves of the values times the square roots of their weights, in order of time
 * @param basisForm sum of q' R q over the fit's orthonormal basis, for a given r
 * @param coefficients number of columns in the basis
 * @param known r where it is known from more points than these
 *
 * Example: serialFit([1, -1, 1, -1], (r) => serialForm([0.5, 0.5, 0.5, 0.5], r), 1).r // 0.0833
 * @throws RangeError when there are no more points than coefficients.
 */
export function serialFit(
  residuals: ArrayLike<number>,
  basisForm: (r: number) => number,
  coefficients: number,
  known?: number,
): SerialFit {
  const n = residuals.length;
  const degrees = n - coefficients;
  if (degrees < 1) {
    throw new RangeError(`points must be more than coefficients; got ${n} and ${coefficients}.`);
  }
  const squares = dot(residuals, residuals);
  const r = known ?? shrunk(lagOne(residuals, squares), n, coefficients);
  // Strongly alike errors leave little scatter to measure; a tenth of the degrees at least is counted.
  const expected = Math.max(n - basisForm(r), degrees / 10);
  return { r, phi: squares / expected, degrees };
}

/**
 * Sum of the products, place by place.
 *
 * Example: dot([1, 2], [3, 4]) // 11
 */
export function dot(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let sum = 0;
  for (let at = 0; at < a.length; at += 1) sum += (a[at] ?? 0) * (b[at] ?? 0);
  return sum;
}

/** Rounding leaves residuals of about 1e-16 where there are none. */
const noScatter = 1e-20;

function lagOne(residuals: ArrayLike<number>, squares: number): number {
  if (squares < noScatter) return 0;
  let products = 0;
  for (let at = 1; at < residuals.length; at += 1) {
    products += (residuals[at] ?? 0) * (residuals[at - 1] ?? 0);
  }
  return products / squares;
}

function shrunk(r1: number, n: number, coefficients: number): number {
  const { correlation, worth } = serialPrior;
  // Under eight points the first-order correction is larger than what it corrects.
  const unbiased = n < 8 ? r1 + coefficients / n : (n * r1 + coefficients) / (n - 4);
  const bounded = Math.max(-1, Math.min(mostAlike, unbiased));
  return Math.max(0, (n * bounded + worth * correlation) / (n + worth));
}

/** What an estimate c' z of such values is worth. */
export interface ContrastWorth {
  /** Its variance over phi: c' R c. */
  readonly form: number;
  /** How many times as large the variance is as for independent points; at least 1. */
  readonly inflation: number;
  /** Degrees of freedom over the inflation, at least 1: so many independent points have been seen. */
  readonly degrees: number;
}

/** Example: contrastWorth([0.5, 0.5], { r: 0.2, phi: 1, degrees: 8 }) // form .6, inflation 1.2, 6.67 degrees */
export function contrastWorth(contrast: ArrayLike<number>, fit: SerialFit): ContrastWorth {
  const form = serialForm(contrast, fit.r);
  const inflation = Math.max(1, form / dot(contrast, contrast));
  return { form, inflation, degrees: Math.max(1, fit.degrees / inflation) };
}
