import type { Uncertainty } from "../../statistics/sum-of-variances.ts";

/** Fewer students than this say little about how differently students go. Common practice, no source. */
const fewestStudents = 5;

/**
 * Variance of a weighted mean of students' estimates from how far the students lie apart; null under five.
 * The degrees of freedom are one less than the number of students that the weights are worth.
 *
 * Source: the sandwich with students as clusters, Liang KY, Zeger SL (1986), Biometrika 73:13-22, times
 * m / (m - 1); the number the weights are worth, Kish L (1965), Survey Sampling (from memory).
 *
 * Example: varianceOverStudents([1, 1, 1, 1, 1], [0, 0, 1, 1, 0.5]) // { variance: .05, degrees: 4 }
 */
export function varianceOverStudents(
  weights: readonly number[],
  estimates: readonly number[],
): Uncertainty | null {
  const count = weights.length;
  if (count < fewestStudents) return null;
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const middle = weightedMean(weights, estimates);
  let squares = 0;
  let scores = 0;
  weights.forEach((weight, at) => {
    squares += weight * weight;
    scores += (weight * ((estimates[at] ?? 0) - middle)) ** 2;
  });
  return {
    variance: ((count / (count - 1)) * scores) / (total * total),
    degrees: Math.max(1, (total * total) / squares - 1),
  };
}

/** Example: weightedMean([1, 3], [0, 1]) // 0.75 */
export function weightedMean(weights: readonly number[], values: readonly number[]): number {
  let total = 0;
  let sum = 0;
  weights.forEach((weight, at) => {
    total += weight;
    sum += weight * (values[at] ?? 0);
  });
  return sum / total;
}

/** The largest of the variances that are known. */
export const widest = (all: readonly (Uncertainty | null)[]): Uncertainty =>
  all.reduce<Uncertainty>(
    (most, each) => (each !== null && each.variance > most.variance ? each : most),
    { variance: 0, degrees: 1 },
  );
