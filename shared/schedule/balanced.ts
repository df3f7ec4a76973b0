import { cutQuantile, cutSteepness } from "./exponential.ts";
import { type IntervalLaw, type LawSettings, requireMeanAboveShortest } from "./interval-law.ts";
import type { RandomStream } from "./stream.ts";

/** Intervals in one block; the size of the published example. */
export const balancedBlockSize = 12;

/**
 * The exponential law dealt like cards: a block of N = 12 intervals that stand for the exponential's
 * twelfths, shuffled anew for each block. Every block lasts exactly N means, so sessions differ less in
 * their number of cues than under the exponential law. The price: a listener who knew all twelve
 * intervals and kept count could tell the last of a block.
 *
 * The shortest gap g is honoured as in the exponential law: g is added to each term of a progression with
 * mean m - g, so that a block still lasts N m. With a longest gap the terms stand for the twelfths of
 * the cut exponential, which stay below it.
 *
 * Source: Fleshler & Hoffman (1962), J Exp Anal Behav 5:529-530.
 * Example: balanced({ meanSeconds: 120, shortestGapSeconds: 20, longestGapSeconds: null }).meanSeconds // 120
 *
 * @throws RangeError as for the exponential law.
 */
export function balanced(settings: LawSettings): IntervalLaw {
  requireMeanAboveShortest(settings);
  const terms = balancedTerms(settings);
  const count = terms.length;
  return {
    name: "balanced",
    meanSeconds: settings.meanSeconds,
    shortestSeconds: terms[0] ?? 0,
    longestSeconds: terms[count - 1] ?? 0,
    gaps: (stream) => dealtInBlocks(terms, stream),
    survival: (seconds) => terms.filter((term) => term > seconds).length / count,
    expectedDecay: (rate) => terms.reduce((sum, term) => sum + Math.exp(-rate * term), 0) / count,
  };
}

/**
 * The intervals of one block in ascending order, in seconds; their mean is the plan's mean.
 *
 * Example: balancedTerms({ meanSeconds: 120, shortestGapSeconds: 20, longestGapSeconds: null }).length // 12
 */
export function balancedTerms(settings: LawSettings): readonly number[] {
  const { meanSeconds, shortestGapSeconds: shortest, longestGapSeconds: longest } = settings;
  const terms =
    longest === null
      ? fleshlerHoffman(meanSeconds - shortest, balancedBlockSize)
      : cutProgression(cutSteepness(meanSeconds, shortest, longest), balancedBlockSize).map(
          (share) => share * (longest - shortest),
        );
  return terms.map((term) => shortest + term);
}

/**
 * The published progression: N ascending intervals, the n-th being the mean of an exponential inside its
 * n-th quantile band of N.
 *
 * t(n) = m [1 + ln N + (N-n) ln(N-n) - (N-n+1) ln(N-n+1)], with 0 ln 0 = 0.
 * Source: Fleshler & Hoffman (1962).
 *
 * Example: fleshlerHoffman(60, 3) // [11.3442, 42.7391, 125.9167]
 */
export function fleshlerHoffman(mean: number, count: number): readonly number[] {
  return Array.from({ length: count }, (_, index) => {
    const above = count - index - 1;
    return mean * (1 + Math.log(count) + timesLog(above) - timesLog(above + 1));
  });
}

/** The same band means for an exponential cut to 0..1, by integrating its quantile over each band. */
function cutProgression(steepness: number, count: number): readonly number[] {
  return Array.from({ length: count }, (_, index) =>
    // The closed form loses its digits where the curve is almost straight; there, three Gauss points
    // are exact to the last digit.
    steepness < 0.01
      ? gaussMean((u) => cutQuantile(steepness, u), index / count, (index + 1) / count)
      : cutBandMean(steepness, index, count),
  );
}

function cutBandMean(steepness: number, index: number, count: number): number {
  const lost = Math.expm1(-steepness);
  const upper = 1 + (index / count) * lost;
  const lower = 1 + ((index + 1) / count) * lost;
  const area = upper - timesLog(upper) - (lower - timesLog(lower));
  return (count * area) / (-lost * steepness);
}

/** Three-point Gauss-Legendre mean of `curve` over from..to. */
function gaussMean(curve: (u: number) => number, from: number, to: number): number {
  const middle = (from + to) / 2;
  const reach = (Math.sqrt(3 / 5) * (to - from)) / 2;
  return (5 * curve(middle - reach) + 8 * curve(middle) + 5 * curve(middle + reach)) / 18;
}

function timesLog(x: number): number {
  return x === 0 ? 0 : x * Math.log(x);
}

function dealtInBlocks(terms: readonly number[], stream: RandomStream): () => number {
  let block: number[] = [];
  return () => {
    if (block.length === 0) block = shuffled(terms, stream);
    return block.pop() ?? 0;
  };
}

/**
 * A shuffled copy, every order equally likely (Fisher-Yates).
 *
 * Example: shuffled([1, 2, 3], () => 0) // [1, 2, 3]
 */
export function shuffled<Item>(items: readonly Item[], stream: RandomStream): Item[] {
  const left = [...items];
  const dealt: Item[] = [];
  while (left.length > 0) {
    dealt.push(...left.splice(Math.floor(stream() * left.length), 1));
  }
  return dealt;
}
