/**
 * The middle value, or the mean of the two in the middle.
 *
 * @throws RangeError without a value.
 */
export function medianOf(values: readonly number[]): number {
  const sorted = [...values].sort((first, second) => first - second);
  const upper = sorted[Math.floor(sorted.length / 2)];
  const lower = sorted[Math.floor((sorted.length - 1) / 2)];
  if (upper === undefined || lower === undefined) {
    throw new RangeError("values must be at least one; got none.");
  }
  return (lower + upper) / 2;
}
