import { fractionalCriticalT } from "../fractional-t.ts";
import type { Interval } from "../result.ts";
import type { CaseSeries } from "./case-algebra.ts";
import { type BetweenCaseFit, fitBetweenCases } from "./fit.ts";
import { varianceInformation } from "./information.ts";

/** An effect in standard deviations of cases at one moment, as a trial with two groups would have it. */
export interface BetweenCaseEffect {
  /** Hedges' g, corrected for few cases, with its standard error and 95 % interval by Student's t. */
  readonly g: number;
  readonly standardError: number;
  readonly interval: Interval;
  /** The same before the correction. */
  readonly uncorrected: number;
  /** Satterthwaite's degrees of freedom of the standard deviation. */
  readonly degrees: number;
  readonly fit: BetweenCaseFit;
}

/** In the points' unit squared: rounding leaves about so much where there is none. */
const leastVariance = 1e-9;
const fewestDegrees = 1;

/**
 * Design-comparable standardised mean difference of a design over several cases, each with points without and
 * with the program: the effect over the standard deviation between and within cases together.
 *
 * Takes every case's level as steady but for the program, and its effect as the same for all. Sources:
 * Pustejovsky JE, Hedges LV, Shadish WR (2014), see `fitBetweenCases`; Hedges LV, Pustejovsky JE, Shadish WR
 * (2012), Research Synthesis Methods 3:224-239.
 *
 * Null where the points of each case hardly scatter, or the deviation rests on less than one degree of freedom.
 *
 * Example: betweenCaseEffect([
 *   { values: [0.4, 0.5, 0.45, 0.8, 0.85, 0.9], treated: [false, false, false, true, true, true] },
 *   { values: [0.3, 0.35, 0.4, 0.6, 0.75, 0.7], treated: [false, false, false, true, true, true] },
 *   { values: [0.5, 0.55, 0.5, 0.8, 0.75, 0.85], treated: [false, false, false, true, true, true] },
 * ])?.g // 2.8305
 *
 * @throws RangeError as `fitBetweenCases`.
 */
export function betweenCaseEffect(
  cases: readonly CaseSeries[],
  confidence = 0.95,
): BetweenCaseEffect | null {
  const fit = fitBetweenCases(cases);
  // No scatter within cases leaves nothing to measure how alike neighbours are.
  if (fit.within < leastVariance) return null;
  const total = fit.between + fit.within;
  const uncorrected = fit.effect / Math.sqrt(total);
  const degrees = (2 * total * total) / totalVariance(varianceInformation(cases, fit));
  if (!(degrees >= fewestDegrees)) return null;
  const correction = 1 - 3 / (4 * degrees - 1);
  const kappa = fit.effectError / Math.sqrt(total);
  // With two degrees or fewer the variance does not exist; a little more stands in for it.
  const inflate = degrees > 2.1 ? degrees / (degrees - 2) : 21;
  const g = correction * uncorrected;
  const variance = kappa * kappa * inflate + g * g * (inflate - 1 / (correction * correction));
  const standardError = correction * Math.sqrt(variance);
  const reach = fractionalCriticalT(confidence, degrees) * standardError;
  return {
    g,
    standardError,
    interval: { lower: g - reach, upper: g + reach },
    uncorrected,
    degrees,
    fit,
  };
}

/** Variance of the sum of both variances, from the inverse of the three by three information. */
function totalVariance(information: readonly (readonly number[])[]): number {
  const m = (row: number, column: number) => information[row]?.[column] ?? 0;
  const minor = (r: number, s: number, c: number, e: number) =>
    m(r, c) * m(s, e) - m(r, e) * m(s, c);
  const det =
    m(0, 0) * minor(1, 2, 1, 2) - m(0, 1) * minor(1, 2, 0, 2) + m(0, 2) * minor(1, 2, 0, 1);
  // Cells (0, 0), (2, 2) and twice (0, 2) of the inverse.
  return (minor(1, 2, 1, 2) + minor(0, 1, 0, 1) + 2 * minor(0, 1, 1, 2)) / det;
}
