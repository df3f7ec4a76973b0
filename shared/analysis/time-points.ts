import { nthSmallest } from "./nth-smallest.ts";

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
  const points = { x: Float64Array.from(x), y: Float64Array.from(y) };
  const wrong = points.x.findIndex(
    (time, place) => !Number.isFinite(time) || !Number.isFinite(points.y[place]),
  );
  if (wrong !== -1) {
    throw new RangeError(`Point ${wrong + 1} has a time or a value that is not a number.`);
  }
  // Sessions usually come in order already.
  return inOrder(points) ? points : sorted(points);
}

function inOrder({ x, y }: TimePoints): boolean {
  return x.every((time, place) => {
    const before = x[place - 1] ?? Number.NEGATIVE_INFINITY;
    return time > before || (time === before && (y[place] ?? 0) >= (y[place - 1] ?? 0));
  });
}

function sorted({ x, y }: TimePoints): TimePoints {
  const places = Int32Array.from(x, (_, place) => place);
  places.sort((a, b) => (x[a] ?? 0) - (x[b] ?? 0) || (y[a] ?? 0) - (y[b] ?? 0));
  return {
    x: Float64Array.from(places, (place) => x[place] ?? 0),
    y: Float64Array.from(places, (place) => y[place] ?? 0),
  };
}

/** The middle value; the mean of the two middle ones of an even number. Throws on an empty list. */
export function median(values: ArrayLike<number>): number {
  if (values.length === 0) throw new RangeError("The median of nothing is not defined.");
  const list = Float64Array.from(values);
  const middle = list.length >> 1;
  const upper = nthSmallest(list, middle);
  return list.length % 2 === 1 ? upper : midpoint(nthSmallest(list, middle - 1), upper);
}

/** Halfway between two numbers; exact when they are equal. */
export const midpoint = (a: number, b: number): number => a + (b - a) / 2;
