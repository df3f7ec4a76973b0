import { type Computed, computed, type NotComputable, notComputable } from "./computed.ts";

/**
 * Percentage of non-overlapping data, as a share from 0 to 1: the points of B above the highest of A.
 *
 * One stray high baseline point makes it 0, and trend alone can make it 1; it is here because teams ask
 * for it. Source: Scruggs TE, Mastropieri MA, Casto G (1987) Remedial and Special Education 8:24-33.
 *
 * Example: pnd([1, 2, 3], [3, 4]).value // 0.5
 */
export function pnd(
  a: readonly number[],
  b: readonly number[],
): Computed | NotComputable<"empty-phase"> {
  if (a.length === 0 || b.length === 0) return notComputable("empty-phase");
  const highest = a.reduce((most, value) => Math.max(most, value));
  return computed(b.filter((value) => value > highest).length / b.length);
}
