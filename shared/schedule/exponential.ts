import {
  evenDecay,
  type IntervalLaw,
  type LawSettings,
  requireMeanAboveShortest,
} from "./interval-law.ts";

/**
 * The constant-hazard law: after the shortest gap g the next cue is as likely in one second as in any
 * other, so waiting teaches a listener nothing. Interval = g + Exp(mean m - g).
 *
 * With a longest gap L the exponential is cut to [g, L] and its rate solved so that the mean is still m
 * (to 1e-9 relative). Near L the hazard then climbs, as it must for any law with a longest gap.
 *
 * A cut exponential can only have a mean up to the middle of its range: m <= (g + L) / 2, where it has
 * become the uniform law. A later mean would need a density that grows, and is refused.
 *
 * Example: exponential({ meanSeconds: 120, shortestGapSeconds: 20, longestGapSeconds: null }).meanSeconds // 120
 *
 * @throws RangeError when m <= g, g < 0, or m > (g + L) / 2.
 */
export function exponential(settings: LawSettings): IntervalLaw {
  requireMeanAboveShortest(settings);
  return settings.longestGapSeconds === null
    ? uncutExponential(settings)
    : cutExponential(settings, settings.longestGapSeconds);
}

function uncutExponential({ meanSeconds, shortestGapSeconds: shortest }: LawSettings): IntervalLaw {
  const scale = meanSeconds - shortest;
  return {
    name: "exponential",
    meanSeconds,
    shortestSeconds: shortest,
    longestSeconds: Number.POSITIVE_INFINITY,
    gaps: (stream) => () => shortest - scale * Math.log1p(-stream()),
    survival: (seconds) => (seconds < shortest ? 1 : Math.exp(-(seconds - shortest) / scale)),
    expectedDecay: (rate) => Math.exp(-rate * shortest) / (1 + rate * scale),
  };
}

function cutExponential(settings: LawSettings, longest: number): IntervalLaw {
  const shortest = settings.shortestGapSeconds;
  const width = longest - shortest;
  const steepness = cutSteepness(settings.meanSeconds, shortest, longest);
  return {
    name: "exponential",
    meanSeconds: settings.meanSeconds,
    shortestSeconds: shortest,
    longestSeconds: longest,
    gaps: (stream) => () => shortest + width * cutQuantile(steepness, stream()),
    survival: (seconds) => {
      const share = Math.min(1, Math.max(0, (seconds - shortest) / width));
      return (
        (Math.exp(-steepness * share) * (1 - share) * evenDecay(steepness * (1 - share))) /
        evenDecay(steepness)
      );
    },
    expectedDecay: (rate) =>
      (Math.exp(-rate * shortest) * evenDecay(steepness + rate * width)) / evenDecay(steepness),
  };
}

/**
 * The share of the way from shortest to longest below which a share `u` of cut intervals lies.
 *
 * Example: cutQuantile(0, 0.3) // 0.3
 */
export function cutQuantile(steepness: number, u: number): number {
  return steepness === 0 ? u : -Math.log1p(u * Math.expm1(-steepness)) / steepness;
}

/**
 * How steeply a cut exponential falls: the width of its range in units of its scale, solved so that its
 * mean is `meanSeconds`. 0 means even (uniform).
 *
 * With s the steepness, the mean lies the share 1/s - 1/(e^s - 1) of the way from shortest to longest.
 * The share falls from 1/2 at s = 0 and stays below 1/s, so bisection between 0 and 1/share always finds
 * it.
 *
 * Example: cutSteepness(60, 20, 100) // 0
 *
 * @throws RangeError when the mean is past the middle of the range.
 */
export function cutSteepness(meanSeconds: number, shortest: number, longest: number): number {
  const wanted = (meanSeconds - shortest) / (longest - shortest);
  // A mean meant to be in the middle may miss it by rounding.
  if (!(wanted > 0 && wanted <= 0.5 + 1e-12)) {
    throw new RangeError(
      `meanSeconds must be above ${shortest} and at most ${(shortest + longest) / 2}, the middle to the longest; got ${meanSeconds}.`,
    );
  }
  if (wanted >= 0.5) return 0;
  let low = 0;
  let high = 1 / wanted;
  for (;;) {
    const middle = (low + high) / 2;
    // No number lies between the two any more: solved to the last digit.
    if (middle <= low || middle >= high) return middle;
    if (meanShare(middle) > wanted) low = middle;
    else high = middle;
  }
}

function meanShare(steepness: number): number {
  // The two terms are large and nearly equal for small steepness; the series keeps all digits.
  if (steepness < 0.01) return 1 / 2 - steepness / 12 + steepness ** 3 / 720;
  return 1 / steepness - 1 / Math.expm1(steepness);
}
