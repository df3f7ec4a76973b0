import { type IntervalLaw, type LawSettings, requireMeanAboveShortest } from "./interval-law.ts";

/**
 * Every interval is the mean. Predictable by design: for comparison and for late fading, and called
 * predictable wherever it is offered. The stream is not read.
 *
 * Example: fixed({ meanSeconds: 120, shortestGapSeconds: 20, longestGapSeconds: null }).meanSeconds // 120
 *
 * @throws RangeError when m <= g or g < 0.
 */
export function fixed(settings: LawSettings): IntervalLaw {
  requireMeanAboveShortest(settings);
  const mean = settings.meanSeconds;
  return {
    name: "fixed",
    meanSeconds: mean,
    shortestSeconds: mean,
    longestSeconds: mean,
    gaps: () => () => mean,
    survival: (seconds) => (seconds < mean ? 1 : 0),
    expectedDecay: (rate) => Math.exp(-rate * mean),
  };
}
