import {
  type Computed,
  computed,
  type NotComputable,
  notComputable,
} from "../../statistics/computed.ts";
import { mean } from "../../statistics/moments.ts";

/** Points taken on each side of the change. */
const immediacyPoints = 3;

/**
 * Immediacy of the effect: mean of the first three points of B less mean of the last three of A, in the
 * points' unit. Points are in time order.
 *
 * Source: What Works Clearinghouse, Single-Case Designs Technical Documentation 1.0 (Kratochwill et al.
 * 2010), "change in level between the last three data points in one phase and the first three of the
 * next".
 */
export function immediacy(
  a: readonly number[],
  b: readonly number[],
): Computed | NotComputable<"fewer-than-three-points"> {
  if (a.length < immediacyPoints || b.length < immediacyPoints)
    return notComputable("fewer-than-three-points");
  return computed(mean(b.slice(0, immediacyPoints)) - mean(a.slice(-immediacyPoints)));
}
