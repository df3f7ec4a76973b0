/** Points in order of time, ready for the rank statistics. `x` ascends; equal `x` ascend in `y`. */
export type TimePoints = { readonly x: Float64Array; readonly y: Float64Array };

/**
 * Put points in order. `x` and `y` are parallel and not changed. Throws RangeError when their
 * lengths differ or a value is not finite.
 */
export function timePoints(x: ArrayLike<number>, y: ArrayLike<number>): TimePoints {
  if (x.length !== y.length) {
    throw new RangeError(`Every point needs a time and a value; got ${x.length} and ${y.length}.`);
  }
  const places = Int32Array.from({ length: x.length }, (_, place) => place);
  const at = (values: ArrayLike<number>, place: number): number => values[place] ?? Number.NaN;
  for (const place of places) {
    if (!Number.isFinite(at(x, place)) || !Number.isFinite(at(y, place))) {
      throw new RangeError(`Point ${place + 1} has a time or a value that is not a number.`);
    }
  }
  places.sort((a, b) => at(x, a) - at(x, b) || at(y, a) - at(y, b));
  return {
    x: Float64Array.from(places, (place) => at(x, place)),
    y: Float64Array.from(places, (place) => at(y, place)),
  };
}

/** The middle value; the mean of the two middle ones of an even number. Throws on an empty list. */
export function median(values: ArrayLike<number>): number {
  if (values.length === 0) throw new RangeError("The median of nothing is not defined.");
  const sorted = Float64Array.from(values).sort();
  const middle = sorted.length >> 1;
  const upper = sorted[middle] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : midpoint(sorted[middle - 1] ?? Number.NaN, upper);
}

/** Halfway between two numbers; exact when they are equal. */
export const midpoint = (a: number, b: number): number => a + (b - a) / 2;
