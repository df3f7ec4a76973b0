import type { LawName } from "../plan/plan.ts";
import type { RandomStream } from "./stream.ts";

/**
 * How long the time from one cue to the next is. All times in seconds, all rates per second.
 *
 * A law knows nothing of sessions: lead-in, end margin and fewest cues are the work of
 * `sessionSchedule`.
 */
export interface IntervalLaw {
  readonly name: LawName;
  /** Mean interval; exact, not a setting that a cut-off has bent. */
  readonly meanSeconds: number;
  /** No interval is shorter. */
  readonly shortestSeconds: number;
  /** No interval is longer; Infinity when the law is not cut off. */
  readonly longestSeconds: number;
  /**
   * Starts a run of intervals fed by `stream` and returns the function that gives the next one. A run
   * may remember what it gave (the balanced law does); two runs share nothing but their stream.
   */
  gaps(stream: RandomStream): () => number;
  /** Share of intervals longer than `seconds`. */
  survival(seconds: number): number;
  /** Mean of e^(-rate x interval): how alike behaviour at two neighbouring cues still is. */
  expectedDecay(ratePerSecond: number): number;
}

/** The settings of a plan that shape its law. */
export interface LawSettings {
  readonly meanSeconds: number;
  readonly shortestGapSeconds: number;
  readonly longestGapSeconds: number | null;
}

/**
 * Stops with a RangeError unless 0 <= shortest gap < mean, both finite. Teachers never meet this error:
 * `checkPlan` refuses such a plan first, in their words.
 *
 * Example: requireMeanAboveShortest({ meanSeconds: 60, shortestGapSeconds: 20 }) // undefined
 */
export function requireMeanAboveShortest({ meanSeconds, shortestGapSeconds }: LawSettings): void {
  const possible =
    Number.isFinite(meanSeconds) && shortestGapSeconds >= 0 && meanSeconds > shortestGapSeconds;
  if (!possible) {
    throw new RangeError(
      `meanSeconds must be above shortestGapSeconds, and that 0 or more; got ${meanSeconds} and ${shortestGapSeconds}.`,
    );
  }
}

/**
 * The mean of e^(-x u) for u spread evenly over 0 to 1: (1 - e^-x) / x, and 1 at x = 0.
 *
 * Example: evenDecay(1) // 0.6321
 */
export function evenDecay(x: number): number {
  return x === 0 ? 1 : -Math.expm1(-x) / x;
}
