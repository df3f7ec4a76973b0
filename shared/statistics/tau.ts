import type { NotComputable } from "./computed.ts";
import { nap } from "./nap.ts";
import type { Interval } from "./result.ts";

export interface Tau {
  readonly kind: "computed";
  /** (pairs higher - pairs lower) / all pairs, from -1 to 1; 0 is no difference. */
  readonly value: number;
  readonly interval: Interval;
}

/**
 * Tau of B against A: nonoverlap on a scale from -1 to 1, that is 2 NAP - 1, and its interval is NAP's
 * on that scale. No baseline trend is taken off; see `baselineCorrectedTau`.
 *
 * Source: Parker RI, Vannest KJ, Davis JL, Sauber SB (2011) Behavior Therapy 42:284-299 ("A versus B").
 *
 * Example: tau([1, 2, 3], [3, 4, 5]).value // 0.8889
 */
export function tau(
  a: readonly number[],
  b: readonly number[],
  confidence = 0.95,
): Tau | NotComputable<"empty-phase"> {
  const overlap = nap(a, b, confidence);
  if (overlap.kind === "not-computable") return overlap;
  const rescale = (share: number) => 2 * share - 1;
  const { lower, upper } = overlap.interval;
  return {
    kind: "computed",
    value: rescale(overlap.value),
    interval: { lower: rescale(lower), upper: rescale(upper) },
  };
}
