import { type NotComputable, notComputable } from "../../statistics/computed.ts";
import { sampleVariance } from "../../statistics/moments.ts";

export interface Spread {
  readonly kind: "computed";
  /** Sample standard deviation (n - 1), in the points' unit. */
  readonly standardDeviation: number;
  readonly lowest: number;
  readonly highest: number;
}

/**
 * Spread ("variability") of a phase about its level. Source: as for `level`.
 */
export function spread(values: readonly number[]): Spread | NotComputable<"fewer-than-two-points"> {
  if (values.length < 2) return notComputable("fewer-than-two-points");
  return {
    kind: "computed",
    standardDeviation: Math.sqrt(sampleVariance(values)),
    lowest: values.reduce((least, value) => Math.min(least, value)),
    highest: values.reduce((most, value) => Math.max(most, value)),
  };
}
