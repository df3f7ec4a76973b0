import { placesInOrder, sortCountingInversions } from "./inversions.ts";
import { criticalZ } from "./normal.ts";

/** Fewer points than this say nothing useful about serial correlation. */
const fewestForSerialCorrelation = 10;

/**
 * How many times as large the variance of Kendall's S is because neighbouring sessions are alike.
 *
 * `residuals` are the values less the fitted trend, in order of time. Their ranks' autocorrelations
 * that differ from zero at the 5 % level enter the sum 1 + 2/(n(n-1)(n-2)) * sum over lags k of
 * (n-k)(n-k-1)(n-k-2) r_k. Lags beyond 10 log10(n) are not used (the usual limit for an
 * autocorrelation function). With fewer than 10 points, or none that differ, the factor is 1; a
 * factor below 1 is raised to 1, so that the correction never makes a trend look surer.
 *
 * Source: Hamed KH, Rao AR (1998), "A modified Mann-Kendall trend test for autocorrelated data",
 * Journal of Hydrology 204:182-196.
 *
 * Example: serialCorrelationFactor([1, -1, 1]) // 1
 */
export function serialCorrelationFactor(residuals: ArrayLike<number>): number {
  if (residuals.length < fewestForSerialCorrelation) return 1;
  const lags = Math.min(residuals.length - 1, Math.floor(10 * Math.log10(residuals.length)));
  return Math.max(1, hamedRaoFactor(residuals, lags));
}

/**
 * The factor of Hamed and Rao itself, over the first `lags` lags; may be below 1.
 *
 * Example: hamedRaoFactor([1, 2, 3, 4, 5, 6, 7, 8, 9, 10], 1) // 1.98
 */
export function hamedRaoFactor(residuals: ArrayLike<number>, lags: number): number {
  const n = residuals.length;
  const correlations = autocorrelations(averageRanks(residuals), lags);
  const bound = criticalZ(0.95) / Math.sqrt(n);
  let sum = 0;
  correlations.forEach((correlation, index) => {
    const k = index + 1;
    if (Math.abs(correlation) > bound) sum += (n - k) * (n - k - 1) * (n - k - 2) * correlation;
  });
  return 1 + (2 * sum) / (n * (n - 1) * (n - 2));
}

/**
 * Autocorrelations at lags 1 to `lags`; all zero when the values are all equal.
 *
 * Example: autocorrelations(new Float64Array([1, 2, 3, 4]), 1) // [0.25]
 */
export function autocorrelations(values: Float64Array, lags: number): number[] {
  const n = values.length;
  const mean = values.reduce((sum, value) => sum + value, 0) / n;
  const deviations = values.map((value) => value - mean);
  const square = deviations.reduce((sum, deviation) => sum + deviation * deviation, 0);
  return Array.from({ length: lags }, (_, index) => {
    if (square === 0) return 0;
    let product = 0;
    for (let at = index + 1; at < n; at += 1) {
      product += (deviations[at] ?? 0) * (deviations[at - index - 1] ?? 0);
    }
    return product / square;
  });
}

/**
 * Ranks from 1; equal values share the mean of their ranks.
 *
 * Example: averageRanks([10, 30, 30]) // [1, 2.5, 2.5]
 */
export function averageRanks(values: ArrayLike<number>): Float64Array {
  const keys = Float64Array.from(values);
  const places = sortCountingInversions(placesInOrder(keys.length), keys).order;
  const value = (at: number): number => keys[places[at] ?? 0] ?? 0;
  const ranks = new Float64Array(values.length);
  let from = 0;
  while (from < places.length) {
    let to = from + 1;
    while (to < places.length && value(to) === value(from)) to += 1;
    for (let at = from; at < to; at += 1) ranks[places[at] ?? 0] = (from + 1 + to) / 2;
    from = to;
  }
  return ranks;
}
