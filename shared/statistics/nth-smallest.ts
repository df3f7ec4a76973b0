/**
 * The value with `rank` values before it in ascending order (0 is the least), in linear time on
 * average. Puts `values` into another order: lesser ones before that place, greater ones after it, so
 * that asking the same list again is cheaper. Throws RangeError for a rank outside.
 *
 * Source: Hoare CAR (1961), "Algorithm 65: Find", Communications of the ACM 4:321-322.
 *
 * Example: nthSmallest(new Float64Array([5, 1, 4]), 1) // 4
 */
export function nthSmallest(values: Float64Array, rank: number): number {
  if (!Number.isInteger(rank) || rank < 0 || rank >= values.length) {
    throw new RangeError(
      `rank must be a whole number from 0 to below ${values.length}; got ${rank}.`,
    );
  }
  let left = 0;
  let right = values.length - 1;
  while (left < right) {
    const pivot = values[(left + right) >> 1] ?? 0;
    let low = left;
    let high = right;
    // Both stop at values equal to the pivot: then many equal ones still divide evenly.
    while (low <= high) {
      while ((values[low] ?? 0) < pivot) low += 1;
      while ((values[high] ?? 0) > pivot) high -= 1;
      if (low > high) break;
      const greater = values[low] ?? 0;
      values[low] = values[high] ?? 0;
      values[high] = greater;
      low += 1;
      high -= 1;
    }
    if (rank <= high) right = high;
    else if (rank >= low) left = low;
    else break;
  }
  return values[rank] ?? 0;
}
