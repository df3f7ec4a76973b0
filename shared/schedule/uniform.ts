import {
  evenDecay,
  type IntervalLaw,
  type LawSettings,
  requireMeanAboveShortest,
} from "./interval-law.ts";

/**
 * All intervals from the shortest gap g to 2m - g are equally likely, so the mean is m.
 *
 * Unlike the exponential law its hazard climbs: the longer the wait, the surer the cue. The narrower the
 * range, the easier it is to learn. A longest gap is not cut here; `checkPlan` refuses one below 2m - g.
 *
 * Example: uniform({ meanSeconds: 120, shortestGapSeconds: 20, longestGapSeconds: null }).longestSeconds // 220
 *
 * @throws RangeError when m <= g or g < 0.
 */
export function uniform(settings: LawSettings): IntervalLaw {
  requireMeanAboveShortest(settings);
  const shortest = settings.shortestGapSeconds;
  const width = 2 * (settings.meanSeconds - shortest);
  return {
    name: "uniform",
    meanSeconds: settings.meanSeconds,
    shortestSeconds: shortest,
    longestSeconds: shortest + width,
    gaps: (stream) => () => shortest + width * stream(),
    survival: (seconds) => 1 - Math.min(1, Math.max(0, (seconds - shortest) / width)),
    expectedDecay: (rate) => Math.exp(-rate * shortest) * evenDecay(rate * width),
  };
}
