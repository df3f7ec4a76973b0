import { criticalZ } from "./normal.ts";
import type { Interval } from "./result.ts";
import { wilsonAt } from "./wilson.ts";

/** A proportion to compare: `on` of `total`; both may be fractions after division by a design effect. */
export interface Share {
  readonly on: number;
  readonly total: number;
}

/**
 * Difference of two independent proportions, first minus second, with Newcombe's hybrid score
 * interval: the distances from each proportion to its Wilson limits, squared and added.
 *
 * The interval lies in [-1, 1], contains the difference, and turns over exactly when the two are
 * exchanged. Source: method 10 of Newcombe RG (1998), "Interval estimation for the difference
 * between independent proportions", Statistics in Medicine 17:873-890.
 *
 * Throws RangeError when a share is impossible (see `wilsonInterval`).
 *
 * Example: newcombeDifference({ on: 56, total: 70 }, { on: 48, total: 80 }).interval // { lower: 0.0524, upper: 0.3339 }
 */
export function newcombeDifference(
  first: Share,
  second: Share,
  confidence = 0.95,
): { difference: number; interval: Interval } {
  return newcombeAt(first, second, criticalZ(confidence));
}

/**
 * The same for a critical value `z` of one's own; see `wilsonAt`.
 *
 * Example: newcombeAt({ on: 56, total: 70 }, { on: 48, total: 80 }, 1.96).difference // 0.2
 */
export function newcombeAt(
  first: Share,
  second: Share,
  z: number,
): { difference: number; interval: Interval } {
  const a = wilsonAt(first.on, first.total, z);
  const b = wilsonAt(second.on, second.total, z);
  const p = first.on / first.total;
  const q = second.on / second.total;
  const difference = p - q;
  return {
    difference,
    interval: {
      lower: Math.max(-1, difference - Math.hypot(p - a.lower, b.upper - q)),
      upper: Math.min(1, difference + Math.hypot(a.upper - p, q - b.lower)),
    },
  };
}
