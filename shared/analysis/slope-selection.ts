import { sortCountingInversions } from "./inversions.ts";
import { midpoint, type TimePoints } from "./time-points.ts";

/**
 * The slope of a given rank among the slopes of all pairs of points, without listing all pairs.
 *
 * For a slope b let r = y - b x. A pair is steeper than b exactly when the order of its two r agrees
 * with time, so merging counts the slopes below b in O(n log n). A sample of the slopes still in
 * question brackets the rank, two counts confirm the bracket, and soon few enough are left to list.
 * The sample is drawn evenly, not at random: it decides how long this takes, never the answer.
 * The answer is a slope of an actual pair: exact when times are whole numbers, otherwise right up to
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
 * The slope with `rank` slopes before it in ascending order (0 is the steepest downwards). `pairs` is
 * the number of pairs at different times; see `kendall`. Throws RangeError for a rank outside.
 */
export function selectSlope(
  points: TimePoints,
  pairs: number,
  rank: number,
  settings?: SelectionSettings,
): number {
  return locate(points, pairs, rank, settings).slope;
}

/** The median of the slopes of all pairs; the mean of the two middle ones of an even number. */
export function medianSlope(
  points: TimePoints,
  pairs: number,
  settings?: SelectionSettings,
): number {
  const lower = locate(points, pairs, Math.ceil(pairs / 2) - 1, settings);
  if (pairs % 2 === 1) return lower.slope;
  return midpoint(lower.slope, lower.next ?? selectSlope(points, pairs, pairs / 2, settings));
}

/** The slope of a rank and, when it came to light on the way, the slope of the next rank. */
type Located = { readonly slope: number; readonly next: number | undefined };

function locate(
  points: TimePoints,
  pairs: number,
  rank: number,
  settings: SelectionSettings = usualSettings(points.x.length),
): Located {
  if (!Number.isInteger(rank) || rank < 0 || rank >= pairs) {
    throw new RangeError(`Of ${pairs} slopes there is none with ${rank} before it.`);
  }
  const centred = centre(points);
  if (centred.flat) return { slope: 0, next: 0 };
  let bracket = everySlope(centred, pairs);
  for (;;) {
    const left = bracket.belowHigh - bracket.below;
    if (left <= settings.listAtMost) {
      const slopes = drawSlopes(points, bracket, left, left);
      const place = Math.min(rank - bracket.below, slopes.length - 1);
      return { slope: slopes[place] ?? 0, next: slopes[place + 1] };
    }
    const slopes = drawSlopes(points, bracket, left, settings.sample);
    const place = ((rank - bracket.below + 0.5) / left) * slopes.length;
    const reach = Math.sqrt(slopes.length);
    const low = slopes[Math.floor(place - reach)];
    const high = slopes[Math.ceil(place + reach)];
    let next = bracket;
    if (low !== undefined) next = cut(centred, next, low - centred.blur(low), rank);
    if (high !== undefined) next = cut(centred, next, high + centred.blur(high), rank);
    if (next.belowHigh - next.below > left / 2) {
      // Many equal slopes: set the likeliest one apart from the rest, or find that it is the answer.
      const likely = slopes[Math.min(Math.floor(place), slopes.length - 1)] ?? 0;
      const blur = centred.blur(likely);
      next = cut(centred, cut(centred, next, likely - blur, rank), likely + blur, rank);
      if (next.high - next.low <= 2.5 * blur) {
        return { slope: likely, next: rank + 1 < next.belowHigh ? likely : undefined };
      }
    }
    bracket = next;
  }
}

const usualSettings = (n: number): SelectionSettings => ({
  listAtMost: Math.max(2048, n),
  sample: Math.min(Math.max(256, n), 16_384),
});

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
  order: Int32Array.from({ length: x.length }, (_, place) => place),
  belowHigh: pairs,
  keysHigh: x.map((value) => -value),
});

/** Narrow the bracket at `slope`, keeping the side that has the rank. */
function cut(points: TimePoints, bracket: Bracket, slope: number, rank: number): Bracket {
  if (!(slope > bracket.low && slope < bracket.high)) return bracket;
  const keys = points.y.map((value, place) => value - slope * (points.x[place] ?? 0));
  // Counted from the order at `low`, which is nearly right already once the bracket is narrow.
  const { order, inversions } = sortCountingInversions(bracket.order, keys);
  const below = bracket.below + inversions;
  return below <= rank
    ? { ...bracket, low: slope, below, order }
    : { ...bracket, high: slope, belowHigh: below, keysHigh: keys };
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
