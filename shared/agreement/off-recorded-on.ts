import { type NotComputable, notComputable } from "../statistics/computed.ts";
import type { Interval } from "../statistics/result.ts";
import { wilsonInterval } from "../statistics/wilson.ts";
import type { TwoByTwo } from "./two-by-two.ts";

export interface OffRecordedOn {
  readonly kind: "computed";
  /** Share of the cues seen off at which the record says on, 0 to 1. */
  readonly value: number;
  readonly recordedOn: number;
  readonly seenOff: number;
  /** Wilson interval of the share. */
  readonly interval: Interval;
}

/**
 * How many of the moments that the second record calls off the first calls on: what a record that says on
 * at every cue cannot hide, however well the percentage looks.
 *
 * Example: offRecordedOn(twoByTwoOf(18, 2, 0, 0)) // 2 of 2, interval 0.34 to 1
 */
export function offRecordedOn(
  { firstOnly, bothOff }: TwoByTwo,
  confidence = 0.95,
): OffRecordedOn | NotComputable<"nobody-seen-off"> {
  const seenOff = firstOnly + bothOff;
  if (seenOff === 0) return notComputable("nobody-seen-off");
  return {
    kind: "computed",
    value: firstOnly / seenOff,
    recordedOn: firstOnly,
    seenOff,
    interval: wilsonInterval(firstOnly, seenOff, confidence),
  };
}
