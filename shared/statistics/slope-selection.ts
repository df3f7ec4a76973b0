import { placesInOrder, sortCountingInversions } from "./inversions.ts";
import { nthSmallest } from "./nth-smallest.ts";
import type { TimePoints } from "./time-points.ts";

/**
 * Slopes of given ranks among the slopes of all pairs of points, without listing all pairs.
 *
 * For a slope b let r = y - b x. A pair is steeper than b exactly when the order of its two r agrees
 * with time, so merging counts the slopes below b in O(n log n). A sample of the slopes still in
 * question brackets each rank, counting confirms the brackets, and soon few enough are left to list.
 * The sample is drawn evenly, not at random: it decides how long this takes, never the answer.
 * Each answer is a slope of an actual pair: exact when times are whole numbers, otherwise right up to
 * the rounding of r.
 *
 * Sources: Dillencourt MB, Mount DM, Netanyahu NS (1992), "A randomized algorithm for slope
 * selection", Int J Computational Geometry & Applications 2:1-27; Matousek J (1991), "Randomized
 * optimal algorithm for slope selection", Information Processing Letters 39:183-187.
 */
export interface SelectionSettings {
  /** List the slopes once no more than this many are in question. */
  readonly listAtMost: number;
  /** How many slopes to draw in each round. */
  readonly sample: number;
}

/** Slopes from `low` (inclusive) to `high` (exclusive). */
interface Bracket {
  readonly low: number;
  readonly high: number;
  /** Slopes below `low`, and the points in the order of their r there. */
  readonly below: number;
  readonly order: Int32Array<ArrayBuffer>;
  /** Slopes below `high`, and each point's r there. */
  readonly belowHigh: number;
  readonly keysHigh: Float64Array;
  /** Once narrowed enough: all slopes of the bracket, or some where all are equal up to rounding. */
  readonly slopes?: Float64Array;
}

/** Gives the slope of a rank; throws RangeError for a rank outside. */
export type SlopeOfRank = (rank: number) => number;

/**
 * Prepares for ranks `near` those that will be asked for; others cost a narrowing of their own. Rank
 * r has r slopes before it in ascending order (0 is the steepest downwards). `pairs` is the number of
 * pairs at different times; see `kendall`. Throws RangeError for a rank outside.
 *
 * Example: slopeSelector({ x: new Float64Array([0, 1, 2]), y: new Float64Array([0, 1, 4]) }, 3, [1])(1) // 2
 */
export function slopeSelector(
  points: TimePoints,
  pairs: number,
  near: readonly number[],
  settings: SelectionSettings = usualSettings(points.x.length),
): SlopeOfRank {
  for (const rank of near) checkRank(rank, pairs);
  const centred = centre(points);
  if (centred.flat) {
    return (rank) => {
      checkRank(rank, pairs);
      return 0;
    };
  }
  let brackets = narrow(points, centred, everySlope(centred, pairs), near, settings);
  return (rank) => {
    checkRank(rank, pairs);
    brackets = brackets.flatMap((bracket) => narrow(points, centred, bracket, [rank], settings));
    const bracket = brackets.find((piece) => holds(piece, [rank]));
    return bracket?.slopes === undefined ? 0 : likelySlope(rank, bracket, bracket.slopes);
  };
}

/**
 * The slopes of the given ranks, in the order given; see `slopeSelector`.
 *
 * Example: selectSlopes({ x: new Float64Array([0, 1, 2]), y: new Float64Array([0, 1, 4]) }, 3, [0, 1, 2]) // [1, 2, 3]
 */
export const selectSlopes = (
  points: TimePoints,
  pairs: number,
  ranks: readonly number[],
  settings?: SelectionSettings,
): number[] => ranks.map(slopeSelector(points, pairs, ranks, settings));

function checkRank(rank: number, pairs: number): void {
  if (!Number.isInteger(rank) || rank < 0 || rank >= pairs) {
    throw new RangeError(`rank must be a whole number from 0 to below ${pairs}; got ${rank}.`);
  }
}

/**
 * Ranks of the two middle slopes; the same rank twice when their number is odd.
 *
 * Example: middleRanks(4) // [1, 2]
 */
export const middleRanks = (pairs: number): [number, number] => [
  Math.ceil(pairs / 2) - 1,
  Math.floor(pairs / 2),
];

const usualSettings = (n: number): SelectionSettings => ({
  listAtMost: Math.max(4096, 8 * n),
  sample: Math.min(Math.max(256, n), 16_384),
});

/** The bracket in pieces, of which those that hold a rank have their slopes. */
function narrow(
  points: TimePoints,
  centred: Centred,
  bracket: Bracket,
  ranks: readonly number[],
  settings: SelectionSettings,
): Bracket[] {
  const inside = ranks.filter((rank) => holds(bracket, [rank])).toSorted((a, b) => a - b);
  if (inside.length === 0 || bracket.slopes !== undefined) return [bracket];
  const left = bracket.belowHigh - bracket.below;
  if (left <= settings.listAtMost) {
    return [{ ...bracket, slopes: drawSlopes(points, bracket, left) }];
  }
  const slopes = sampleSlopes(points, bracket, settings.sample);
  const middle = likelySlope(inside[inside.length >> 1] ?? 0, bracket, slopes);
  const blur = centred.blur(middle);
  if (bracket.high - bracket.low <= 2.5 * blur) return [{ ...bracket, slopes }];
  let pieces = split(centred, [bracket], pivotsAround(inside, bracket, slopes, centred));
  const largest = pieces.reduce(
    (most, piece) => (holds(piece, inside) ? Math.max(most, piece.belowHigh - piece.below) : most),
    0,
  );
  if (largest > left / 2) {
    // Many equal slopes: set the likeliest one apart from the rest.
    pieces = split(centred, pieces, [middle - blur, middle + blur]);
  }
  return pieces.flatMap((piece) => narrow(points, centred, piece, inside, settings));
}

/** The slope of a rank as a sample of the bracket's slopes has it: exact when the sample is all. */
function likelySlope(rank: number, bracket: Bracket, slopes: Float64Array): number {
  // Rounding may have lost the bracket's only slope; its end is as near.
  if (slopes.length === 0) return bracket.low;
  const place = Math.floor(placeOf(rank, bracket, slopes.length));
  return nthSmallest(slopes, Math.min(place, slopes.length - 1));
}

const holds = (bracket: Bracket, ranks: readonly number[]): boolean =>
  ranks.some((rank) => rank >= bracket.below && rank < bracket.belowHigh);

/** Where a rank should lie among a sample of the bracket's slopes. */
const placeOf = (rank: number, bracket: Bracket, sample: number): number =>
  ((rank - bracket.below + 0.5) / (bracket.belowHigh - bracket.below)) * sample;

/** Slopes to cut at, on both sides of each rank; ranks close together share theirs. */
function pivotsAround(
  ranks: readonly number[],
  bracket: Bracket,
  slopes: Float64Array,
  centred: Centred,
): number[] {
  // Twice the standard deviation of a place among draws at random, or more.
  const reach = Math.sqrt(slopes.length);
  const pivots: number[] = [];
  let end = Number.NEGATIVE_INFINITY;
  const add = (place: number, side: -1 | 1) => {
    if (!(place >= 0 && place < slopes.length)) return;
    const slope = nthSmallest(slopes, place);
    pivots.push(slope + side * centred.blur(slope));
  };
  for (const rank of ranks) {
    const place = placeOf(rank, bracket, slopes.length);
    if (place - reach > end) {
      add(Math.ceil(end), 1);
      add(Math.floor(place - reach), -1);
    }
    end = place + reach;
  }
  add(Math.ceil(end), 1);
  return pivots;
}

type Centred = TimePoints & {
  /** Whether all values are equal, and so all slopes zero. */
  readonly flat: boolean;
  /** How far from a slope rounding of r may mistake one slope for another. */
  readonly blur: (slope: number) => number;
};

/** Points moved so that their middle is near zero, where rounding is least. */
function centre({ x, y }: TimePoints): Centred {
  const middle = x[x.length >> 1] ?? 0;
  const level = y[y.length >> 1] ?? 0;
  const centredX = x.map((value) => value - middle);
  const centredY = y.map((value) => value - level);
  let step = Number.POSITIVE_INFINITY;
  for (let at = 1; at < x.length; at += 1) {
    const gap = (x[at] ?? 0) - (x[at - 1] ?? 0);
    if (gap > 0 && gap < step) step = gap;
  }
  const farthest = (values: Float64Array) =>
    values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const width = farthest(centredX);
  const height = farthest(centredY);
  return {
    x: centredX,
    y: centredY,
    flat: height === 0,
    blur: (slope) => (8 * Number.EPSILON * (height + Math.abs(slope) * width)) / step,
  };
}

const everySlope = ({ x }: TimePoints, pairs: number): Bracket => ({
  low: Number.NEGATIVE_INFINITY,
  high: Number.POSITIVE_INFINITY,
  below: 0,
  order: placesInOrder(x.length),
  belowHigh: pairs,
  keysHigh: x.map((value) => -value),
});

/** Cut brackets at each of the slopes that lies inside one. */
function split(points: TimePoints, brackets: Bracket[], slopes: readonly number[]): Bracket[] {
  return slopes.reduce(
    (pieces, slope) => pieces.flatMap((piece) => cut(points, piece, slope)),
    brackets,
  );
}

function cut({ x, y }: TimePoints, bracket: Bracket, slope: number): Bracket[] {
  if (!(slope > bracket.low && slope < bracket.high)) return [bracket];
  const keys = new Float64Array(x.length);
  for (let at = 0; at < x.length; at += 1) keys[at] = (y[at] ?? 0) - slope * (x[at] ?? 0);
  // Counted from the order at `low`, which is nearly right already once the bracket is narrow.
  const { order, inversions } = sortCountingInversions(bracket.order, keys);
  const below = bracket.below + inversions;
  return [
    { ...bracket, high: slope, belowHigh: below, keysHigh: keys },
    { ...bracket, low: slope, below, order },
  ];
}

/** Slopes of the bracket to guess from where a rank lies: about `count`, or more where drawing is cheap. */
function sampleSlopes(points: TimePoints, bracket: Bracket, count: number): Float64Array {
  if (bracket.low === Number.NEGATIVE_INFINITY && bracket.high === Number.POSITIVE_INFINITY) {
    const slopes = slopesOfEvenPairs(points, 4 * count);
    // With most points at the same time, few pairs have a slope.
    if (slopes.length >= count) return slopes;
  }
  return drawSlopes(points, bracket, count);
}

/**
 * Slopes of up to `count` pairs that cover all pairs evenly; those at the same time have none. The
 * places of a pair follow Weyl's sequences of two powers of the plastic number's inverse.
 */
function slopesOfEvenPairs({ x, y }: TimePoints, count: number): Float64Array {
  const slopes = new Float64Array(count);
  let drawn = 0;
  let first = 0.5;
  let second = 0.5;
  for (let draw = 0; draw < count; draw += 1) {
    first = (first + 0.754_877_666_246_692_7) % 1;
    second = (second + 0.569_840_290_998_053_2) % 1;
    const a = Math.floor(first * x.length);
    const b = Math.floor(second * x.length);
    if (x[a] === x[b]) continue;
    slopes[drawn] = slopeOf(x, y, a, b);
    drawn += 1;
  }
  return slopes.subarray(0, drawn);
}

/** About `count` of the bracket's slopes, spread evenly over them; all when it has no more. */
function drawSlopes({ x, y }: TimePoints, bracket: Bracket, count: number): Float64Array {
  const left = bracket.belowHigh - bracket.below;
  const golden = 0.618_033_988_749_894_8;
  const wanted = new Float64Array(count);
  for (let draw = 0; draw < count; draw += 1) {
    // A golden-ratio shift within each share keeps the draws from falling in step with the sorting.
    wanted[draw] =
      count === left ? draw : Math.floor(((draw + ((draw * golden) % 1)) * left) / count);
  }
  const slopes = new Float64Array(count);
  let drawn = 0;
  const { keysHigh, order } = bracket;
  const add = (earlier: number, later: number) => {
    slopes[drawn] = slopeOf(x, y, earlier, later);
    drawn += 1;
  };
  sortCountingInversions(order, keysHigh, wanted, add);
  return slopes.subarray(0, drawn);
}

const slopeOf = (x: Float64Array, y: Float64Array, a: number, b: number): number =>
  ((y[b] ?? 0) - (y[a] ?? 0)) / ((x[b] ?? 0) - (x[a] ?? 0));
