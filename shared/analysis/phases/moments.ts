/** Arithmetic mean; 0 for no values, so callers guard first. */
export function mean(values: readonly number[]): number {
  if (values.length === 0) return 0;
  return values.reduce((total, value) => total + value, 0) / values.length;
}

/** Sample variance, with n - 1 below; 0 for fewer than two values, so callers guard first. */
export function sampleVariance(values: readonly number[]): number {
  if (values.length < 2) return 0;
  const centre = mean(values);
  const squares = values.reduce((total, value) => total + (value - centre) ** 2, 0);
  return squares / (values.length - 1);
}

/** Middle value, or the mean of the two middle ones; 0 for no values, so callers guard first. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((x, y) => x - y);
  const middle = sorted.length >> 1;
  const upper = sorted[middle] ?? 0;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? 0) + upper) / 2;
}
