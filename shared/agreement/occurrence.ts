import {
  type Computed,
  computed,
  type NotComputable,
  notComputable,
} from "../statistics/computed.ts";
import type { TwoByTwo } from "./two-by-two.ts";

/**
 * Occurrence agreement (scored-interval): of the cues at which either record says on task, the share at
 * which both do. Between 0 and 1. Blind to chance agreement on "off", so it is the stricter figure when
 * a student is rarely on task.
 *
 * Source: Hawkins & Dotson's scored-interval score as given by Reed & Azulay (2011), Behavior Analysis in
 * Practice 4(2):45-52.
 */
export function occurrenceAgreement(table: TwoByTwo): Computed | NotComputable<"nobody-said-on"> {
  const said = table.bothOn + table.firstOnly + table.secondOnly;
  return said === 0 ? notComputable("nobody-said-on") : computed(table.bothOn / said);
}

/**
 * Non-occurrence agreement (unscored-interval): of the cues at which either record says off task, the
 * share at which both do. Between 0 and 1; the stricter figure when a student is nearly always on task.
 *
 * Source: as for `occurrenceAgreement`.
 */
export function nonOccurrenceAgreement(
  table: TwoByTwo,
): Computed | NotComputable<"nobody-said-off"> {
  const said = table.bothOff + table.firstOnly + table.secondOnly;
  return said === 0 ? notComputable("nobody-said-off") : computed(table.bothOff / said);
}
