import { nthSmallest } from "./nth-smallest.ts";

/** Points in order of time, ready for the rank statistics. `x` ascends; equal `x` ascend in `y`. */
export interface TimePoints {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/**
 * Put points in order. `x` and `y` are parallel and not changed. Throws RangeError when their
 * lengths differ or a value is not finite.
 *
 * Example: timePoints([2, 1], [20, 10]).y // [10, 20]
 */
export function timePoints(x: ArrayLike<number>, y: ArrayLike<number>): TimePoints {
  if (x.length !== y.length) {
    throw new RangeError(`x and y must be of one length; got ${x.length} and ${y.length}.`);
  }
  const points = { x: Float64Array.from(x), y: Float64Array.from(y) };
  for (let at = 0; at < x.length; at += 1) {
    if (Number.isFinite(points.x[at]) && Number.isFinite(points.y[at])) continue;
    throw new RangeError(
      `Point ${at + 1} must be two finite numbers; got ${points.x[at]} and ${points.y[at]}.`,
    );
  }
  // Sessions usually come in order already.
  return inOrder(points) ? points : sorted(points);
}

function inOrder({ x, y }: TimePoints): boolean {
  for (let at = 1; at < x.length; at += 1) {
    const gap = (x[at] ?? 0) - (x[at - 1] ?? 0);
    if (gap < 0 || (gap === 0 && (y[at] ?? 0) < (y[at - 1] ?? 0))) return false;
  }
  return true;
}

function sorted({ x, y }: TimePoints): TimePoints {
  const places = Int32Array.from(x, (_, place) => place);
  places.sort((a, b) => (x[a] ?? 0) - (x[b] ?? 0) || (y[a] ?? 0) - (y[b] ?? 0));
  return {
    x: Float64Array.from(places, (place) => x[place] ?? 0),
    y: Float64Array.from(places, (place) => y[place] ?? 0),
  };
}

/**
 * The middle value; the mean of the two middle ones of an even number. Throws on an empty list.
 *
 * Example: median([3, 1, 2]) // 2
 */
export function median(values: ArrayLike<number>): number {
  if (values.length === 0) throw new RangeError("values must be at least one; got none.");
  const list = Float64Array.from(values);
  const middle = list.length >> 1;
  const upper = nthSmallest(list, middle);
  return list.length % 2 === 1 ? upper : midpoint(nthSmallest(list, middle - 1), upper);
}

/**
 * Halfway between two numbers; exact when they are equal.
 *
 * Example: midpoint(1, 2) // 1.5
 */
export const midpoint = (a: number, b: number): number => a + (b - a) / 2;
