import { sortCountingInversions } from "./inversions.ts";
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
export type SelectionSettings = {
  /** List the slopes once no more than this many are in question. */
  readonly listAtMost: number;
  /** How many slopes to draw in each round. */
  readonly sample: number;
};

/** Slopes from `low` (inclusive) to `high` (exclusive) are still in question. */
type Bracket = {
  readonly low: number;
  readonly high: number;
  /** Slopes below `low`, and the points in the order of their r there. */
  readonly below: number;
  readonly order: Int32Array<ArrayBuffer>;
  /** Slopes below `high`, and each point's r there. */
  readonly belowHigh: number;
  readonly keysHigh: Float64Array;
};

/**
 * The slopes of the given ranks, in the order given. Rank r has r slopes before it in ascending order
 * (0 is the steepest downwards). `pairs` is the number of pairs at different times; see `kendall`.
 * Throws RangeError for a rank outside.
 */
export function selectSlopes(
  points: TimePoints,
  pairs: number,
  ranks: readonly number[],
  settings: SelectionSettings = usualSettings(points.x.length),
): number[] {
  for (const rank of ranks) {
    if (!Number.isInteger(rank) || rank < 0 || rank >= pairs) {
      throw new RangeError(`Of ${pairs} slopes there is none with ${rank} before it.`);
    }
  }
  const centred = centre(points);
  if (centred.flat) return ranks.map(() => 0);
  const found = new Map<number, number>();
  choose(points, centred, everySlope(centred, pairs), ranks, settings, found);
  return ranks.map((rank) => found.get(rank) ?? 0);
}

/** Ranks of the two middle slopes; the same rank twice when their number is odd. */
export const middleRanks = (pairs: number): [number, number] => [
  Math.ceil(pairs / 2) - 1,
  Math.floor(pairs / 2),
];

const usualSettings = (n: number): SelectionSettings => ({
  listAtMost: Math.max(4096, n),
  sample: Math.min(Math.max(256, n), 16_384),
});

/** Finds the slopes of those ranks that fall into the bracket. */
function choose(
  points: TimePoints,
  centred: Centred,
  bracket: Bracket,
  ranks: readonly number[],
  settings: SelectionSettings,
  found: Map<number, number>,
): void {
  const inside = ranks
    .filter((rank) => rank >= bracket.below && rank < bracket.belowHigh)
    .toSorted((a, b) => a - b);
  if (inside.length === 0) return;
  const left = bracket.belowHigh - bracket.below;
  const all = left <= settings.listAtMost;
  const slopes = drawSlopes(points, bracket, left, all ? left : settings.sample);
  const likely = (rank: number): number => {
    const place = all ? rank - bracket.below : placeOf(rank, bracket, slopes.length);
    return slopes[Math.min(Math.max(Math.floor(place), 0), slopes.length - 1)] ?? 0;
  };
  const middle = likely(inside[inside.length >> 1] ?? 0);
  if (all || bracket.high - bracket.low <= 2.5 * centred.blur(middle)) {
    for (const rank of inside) found.set(rank, likely(rank));
    return;
  }
  let pieces = split(centred, [bracket], pivotsAround(inside, bracket, slopes, centred));
  const largest = pieces.reduce(
    (most, piece) => (holds(piece, inside) ? Math.max(most, piece.belowHigh - piece.below) : most),
    0,
  );
  if (largest > left / 2) {
    // Many equal slopes: set the likeliest one apart from the rest.
    const blur = centred.blur(middle);
    pieces = split(centred, pieces, [middle - blur, middle + blur]);
  }
  for (const piece of pieces) choose(points, centred, piece, inside, settings, found);
}

const holds = (bracket: Bracket, ranks: readonly number[]): boolean =>
  ranks.some((rank) => rank >= bracket.below && rank < bracket.belowHigh);

/** Where a rank should lie in an ascending sample of the bracket's slopes. */
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
    const slope = slopes[place];
    if (slope !== undefined) pivots.push(slope + side * centred.blur(slope));
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
  order: Int32Array.from(x, (_, place) => place),
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
  const keys = y.map((value, place) => value - slope * (x[place] ?? 0));
  // Counted from the order at `low`, which is nearly right already once the bracket is narrow.
  const { order, inversions } = sortCountingInversions(bracket.order, keys);
  const below = bracket.below + inversions;
  return [
    { ...bracket, high: slope, belowHigh: below, keysHigh: keys },
    { ...bracket, low: slope, below, order },
  ];
}

/** About `count` of the `left` slopes in question, spread evenly over them, in ascending order. */
function drawSlopes(
  { x, y }: TimePoints,
  bracket: Bracket,
  left: number,
  count: number,
): Float64Array {
  const golden = 0.618_033_988_749_894_8;
  const wanted = new Float64Array(count).map((_, draw) =>
    // A golden-ratio shift within each share keeps the draws from falling in step with the merging.
    count === left ? draw : Math.floor(((draw + ((draw * golden) % 1)) * left) / count),
  );
  const slopes = new Float64Array(count);
  let drawn = 0;
  sortCountingInversions(bracket.order, bracket.keysHigh, wanted, (earlier, later) => {
    slopes[drawn] = slopeOf(x, y, earlier, later);
    drawn += 1;
  });
  return slopes.subarray(0, drawn).sort();
}

const slopeOf = (x: Float64Array, y: Float64Array, a: number, b: number): number =>
  ((y[b] ?? 0) - (y[a] ?? 0)) / ((x[b] ?? 0) - (x[a] ?? 0));
