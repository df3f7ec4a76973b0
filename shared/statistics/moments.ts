/**
 * Arithmetic mean; 0 for no values, so callers guard first.
 *
 * Example: mean([1, 2, 6]) // 3
 */
export function mean(values: readonly number[]): number {
  if (values.length === 0) return 0;
  return values.reduce((total, value) => total + value, 0) / values.length;
}

/**
 * Sample variance, with n - 1 below; 0 for fewer than two values, so callers guard first.
 *
 * Example: sampleVariance([1, 2, 6]) // 7
 */
export function sampleVariance(values: readonly number[]): number {
  if (values.length < 2) return 0;
  const centre = mean(values);
  const squares = values.reduce((total, value) => total + (value - centre) ** 2, 0);
  return squares / (values.length - 1);
}
