import { type NotComputable, notComputable } from "../statistics/computed.ts";
import type { Interval } from "../statistics/result.ts";
import { wilsonInterval } from "../statistics/wilson.ts";
import type { TwoByTwo } from "./two-by-two.ts";

export interface PercentAgreement {
  readonly kind: "computed";
  /** Share of compared cues at which both records say the same, 0 to 1. */
  readonly value: number;
  readonly matching: number;
  readonly compared: number;
  /** Wilson interval of the share. */
  readonly interval: Interval;
}

/**
 * Point-by-point (interval-by-interval) agreement: the share of cues at which two records say the same,
 * with its Wilson score interval.
 *
 * Source: Cooper, Heron & Heward's interval-by-interval score as given by Reed & Azulay (2011), Behavior
 * Analysis in Practice 4(2):45-52; the interval as in `wilsonInterval`.
 */
export function percentAgreement(
  table: TwoByTwo,
  confidence = 0.95,
): PercentAgreement | NotComputable<"no-pairs"> {
  if (table.compared === 0) return notComputable("no-pairs");
  const matching = table.bothOn + table.bothOff;
  return {
    kind: "computed",
    value: matching / table.compared,
    matching,
    compared: table.compared,
    interval: wilsonInterval(matching, table.compared, confidence),
  };
}
