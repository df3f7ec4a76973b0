import type { Stated } from "./statement.ts";

/**
 * A change so slow needs twenty school weeks for ten percentage points. Our own bound: neither practice nor a
 * publication names one.
 */
export const steadyPointsPerWeek = 0.5;

/**
 * Whether a trend in percentage points a week is steady: neither a rise nor a fall shows, and the 95 % interval
 * leaves out everything that is as fast as the bound. "Cannot tell" is a lack of data; this is an answer.
 *
 * Two one-sided tests (Schuirmann, 1987): who changes by the bound or faster is called steady in at most one
 * case of twenty, which a simulation holds.
 *
 * Example: isSteady({ interval: { lower: -0.2, upper: 0.3 }, evidence: "cannot-tell" }) // true
 */
export const isSteady = ({ interval, evidence }: Pick<Stated, "interval" | "evidence">): boolean =>
  evidence === "cannot-tell" &&
  interval.lower > -steadyPointsPerWeek &&
  interval.upper < steadyPointsPerWeek;
