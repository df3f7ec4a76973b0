/**
 * Counting inversions by merging: the engine of the rank statistics.
 *
 * Source: Knight WR (1966), "A computer method for calculating Kendall's tau with ungrouped data",
 * JASA 61:436-439.
 */

/** Called with the two places of a wanted inversion: the one that stood before, with the greater key. */
type Found = (before: number, after: number) => void;

export type Sorted = {
  /** Places 0 to n-1 in ascending order of their key; equal keys keep the order they came in. */
  readonly order: Int32Array<ArrayBuffer>;
  /** Pairs in which a strictly greater key stood before a lesser one. */
  readonly inversions: number;
};

/**
 * Sort the places in `order` by `keys` (indexed by place) and count the inversions met.
 * O(n log n). `wanted` are ascending numbers in [0, inversions): the inversions with these numbers,
 * in the order in which merging meets them, are handed to `found`; this draws or lists inversions
 * without listing all. Neither input is changed.
 */
export function sortCountingInversions(
  order: Int32Array<ArrayBuffer>,
  keys: Float64Array,
  wanted?: Float64Array,
  found?: Found,
): Sorted {
  const n = order.length;
  let from = order.slice();
  let into = new Int32Array(n);
  // The keys travel with their places, so that merging reads memory in order.
  let fromKeys = new Float64Array(n);
  let intoKeys = new Float64Array(n);
  for (let at = 0; at < n; at += 1) fromKeys[at] = keys[order[at] ?? 0] ?? 0;
  let inversions = 0;
  let next = 0;
  let wantedNext = wanted?.[0] ?? Number.POSITIVE_INFINITY;
  let sortedWidth = 1;
  if (wanted === undefined) {
    inversions = sortBlocks(from, fromKeys);
    sortedWidth = block;
  }
  for (let width = sortedWidth; width < n; width *= 2) {
    for (let start = 0; start < n; start += 2 * width) {
      const middle = Math.min(start + width, n);
      const end = Math.min(start + 2 * width, n);
      let left = start;
      let right = middle;
      let at = start;
      while (left < middle && right < end) {
        const leftKey = fromKeys[left] ?? 0;
        const rightKey = fromKeys[right] ?? 0;
        if (leftKey <= rightKey) {
          into[at] = from[left] ?? 0;
          intoKeys[at] = leftKey;
          left += 1;
        } else {
          const passed = middle - left;
          while (wantedNext < inversions + passed) {
            found?.(from[left + wantedNext - inversions] ?? 0, from[right] ?? 0);
            next += 1;
            wantedNext = wanted?.[next] ?? Number.POSITIVE_INFINITY;
          }
          inversions += passed;
          into[at] = from[right] ?? 0;
          intoKeys[at] = rightKey;
          right += 1;
        }
        at += 1;
      }
      for (; left < middle; left += 1, at += 1) {
        into[at] = from[left] ?? 0;
        intoKeys[at] = fromKeys[left] ?? 0;
      }
      for (; right < end; right += 1, at += 1) {
        into[at] = from[right] ?? 0;
        intoKeys[at] = fromKeys[right] ?? 0;
      }
    }
    [from, into] = [into, from];
    [fromKeys, intoKeys] = [intoKeys, fromKeys];
  }
  return { order: from, inversions };
}

const block = 8;

/** Insertion sort within blocks, which beats merging for so few; returns the inversions undone. */
function sortBlocks(order: Int32Array, keys: Float64Array): number {
  const n = order.length;
  let inversions = 0;
  for (let start = 0; start < n; start += block) {
    const end = Math.min(start + block, n);
    for (let at = start + 1; at < end; at += 1) {
      const place = order[at] ?? 0;
      const key = keys[at] ?? 0;
      let to = at;
      while (to > start && (keys[to - 1] ?? 0) > key) {
        keys[to] = keys[to - 1] ?? 0;
        order[to] = order[to - 1] ?? 0;
        to -= 1;
      }
      keys[to] = key;
      order[to] = place;
      inversions += at - to;
    }
  }
  return inversions;
}

/** Pairs among `count` things. */
export const pairs = (count: number): number => (count < 2 ? 0 : (count * (count - 1)) / 2);

/** Sizes of the groups of equal values, groups of one left out. */
export function tieSizes(values: ArrayLike<number>): number[] {
  const sorted = Float64Array.from(values).sort();
  const sizes: number[] = [];
  let size = 1;
  for (let at = 1; at <= sorted.length; at += 1) {
    if (at < sorted.length && sorted[at] === sorted[at - 1]) {
      size += 1;
      continue;
    }
    if (size > 1) sizes.push(size);
    size = 1;
  }
  return sizes;
}
