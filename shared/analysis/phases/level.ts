import { type NotComputable, notComputable } from "../../statistics/computed.ts";
import { mean } from "../../statistics/moments.ts";
import { median } from "../../statistics/time-points.ts";

export interface Level {
  readonly kind: "computed";
  readonly mean: number;
  readonly median: number;
}

/**
 * Level of a phase: mean and median of its points, in the points' unit. Each session counts once,
 * however many marks it holds; the pooled rate is another question.
 *
 * Source: level as one of the features of visual analysis in What Works Clearinghouse, Single-Case
 * Designs Technical Documentation 1.0 (Kratochwill et al. 2010).
 */
export function level(values: readonly number[]): Level | NotComputable<"empty-phase"> {
  if (values.length === 0) return notComputable("empty-phase");
  return { kind: "computed", mean: mean(values), median: median(values) };
}
