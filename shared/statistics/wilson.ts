import { criticalZ } from "./normal.ts";
import type { Interval } from "./result.ts";

/**
 * Wilson's score interval for a proportion, without continuity correction.
 *
 * `on` of `total` trials; both may be fractions of a trial, because a pooled count is first divided
 * by its design effect. The result lies in [0, 1]; with `on` at 0 or at `total` that end is exact.
 *
 * Source: Wilson EB (1927), JASA 22:209-212; method 3 of Newcombe RG (1998), "Two-sided confidence
 * intervals for the single proportion", Statistics in Medicine 17:857-872.
 *
 * Throws RangeError unless 0 <= on <= total and total > 0.
 *
 * Example: wilsonInterval(8, 10) // { lower: 0.4902, upper: 0.9433 }
 */
export function wilsonInterval(on: number, total: number, confidence = 0.95): Interval {
  return wilsonAt(on, total, criticalZ(confidence));
}

/**
 * The same for a critical value `z` of one's own, such as Student's t where the spread is estimated.
 *
 * Example: wilsonAt(8, 10, 1.96) // { lower: 0.4902, upper: 0.9433 }
 */
export function wilsonAt(on: number, total: number, z: number): Interval {
  if (!(total > 0 && on >= 0 && on <= total && Number.isFinite(total))) {
    throw new RangeError(`on must be from 0 to total, and total above 0; got ${on} of ${total}.`);
  }
  const zz = z * z;
  const off = total - on;
  const half = z * Math.sqrt((on * off) / total + zz / 4);
  return {
    lower: on === 0 ? 0 : Math.max(0, (on + zz / 2 - half) / (total + zz)),
    upper: off === 0 ? 1 : Math.min(1, (on + zz / 2 + half) / (total + zz)),
  };
}
