import type { Interval } from "../../statistics/result.ts";

/** A rate as it is said aloud: out of every ten times, about this many. */
export interface OfTen {
  /** Of ten times, to the nearest whole one. */
  readonly about: number;
  /** The whole numbers of ten within which the usual rate lies as surely as within the interval. */
  readonly low: number;
  readonly high: number;
}

/** Keeps 0.3 * 10 at 3. */
const hair = 1e-9;

/**
 * A rate in tenths, with its error in tenths too. The interval is widened to whole tenths, never narrowed, so
 * "from six to eight of ten" is at least as sure as the interval it comes from; `about` itself is rounded and
 * differs from the rate by half of one in ten at most.
 *
 * @param rate 0 to 1
 * @param interval of the same rate, 0 to 1, holding it
 *
 * Example: ofTen(0.71, { lower: 0.58, upper: 0.81 }) // { about: 7, low: 5, high: 9 }
 */
export function ofTen(rate: number, { lower, upper }: Interval): OfTen {
  if (!(rate >= 0 && rate <= 1)) {
    throw new RangeError(`The rate must be from 0 to 1; got ${rate}.`);
  }
  return {
    about: Math.round(10 * rate),
    low: Math.max(0, Math.floor(10 * lower + hair)),
    high: Math.min(10, Math.ceil(10 * upper - hair)),
  };
}
