/**
 * Counting inversions by merging: the engine of the rank statistics.
 *
 * Source: Knight WR (1966), "A computer method for calculating Kendall's tau with ungrouped data",
 * JASA 61:436-439.
 */

/** Called with the two places of a wanted inversion: the one that stood before, with the greater key. */
type Found = (before: number, after: number) => void;

export interface Sorted {
  /** Places 0 to n-1 in ascending order of their key; equal keys keep the order they came in. */
  readonly order: Int32Array<ArrayBuffer>;
  /** Pairs in which a strictly greater key stood before a lesser one. */
  readonly inversions: number;
}

/** Insertion beats merging for so few. */
const block = 8;

/** Room to sort in, kept between calls: making it again took a third of the time. */
let room = roomFor(0);

function roomFor(n: number) {
  return {
    sorted: new Float64Array(n),
    asideKeys: new Float64Array(n),
    asidePlaces: new Int32Array(n),
  };
}

/**
 * Sort the places in `order` by `keys` (indexed by place) and count the inversions met.
 * O(n log n), and quicker for places that are nearly in order. `wanted` are ascending numbers in
 * [0, inversions): the inversions with these numbers, in the order in which sorting meets them, are
 * handed to `found`; this draws or lists inversions without listing all; `found` must not sort in turn. No input is changed.
 *
 * Example: sortCountingInversions(placesInOrder(3), new Float64Array([2, 3, 1])).inversions // 2
 */
export function sortCountingInversions(
  order: Int32Array<ArrayBuffer>,
  keys: Float64Array,
  wanted?: Float64Array,
  found?: Found,
): Sorted {
  const n = order.length;
  const places = order.slice();
  if (room.sorted.length < n) room = roomFor(n);
  // The keys travel with their places, so that sorting reads memory in order.
  const { sorted, asideKeys, asidePlaces } = room;
  for (let at = 0; at < n; at += 1) sorted[at] = keys[order[at] ?? 0] ?? 0;
  let inversions = 0;
  let next = 0;
  let wantedNext = wanted?.[0] ?? Number.POSITIVE_INFINITY;
  for (let start = 0; start < n; start += block) {
    const end = Math.min(start + block, n);
    for (let at = start + 1; at < end; at += 1) {
      const place = places[at] ?? 0;
      const key = sorted[at] ?? 0;
      let to = at;
      while (to > start && (sorted[to - 1] ?? 0) > key) {
        sorted[to] = sorted[to - 1] ?? 0;
        places[to] = places[to - 1] ?? 0;
        to -= 1;
      }
      sorted[to] = key;
      places[to] = place;
      const passed = at - to;
      while (wantedNext < inversions + passed) {
        found?.(places[at - wantedNext + inversions] ?? 0, place);
        next += 1;
        wantedNext = wanted?.[next] ?? Number.POSITIVE_INFINITY;
      }
      inversions += passed;
    }
  }
  for (let width = block; width < n; width *= 2) {
    for (let middle = width; middle < n; middle += 2 * width) {
      // Of the left half, only what does not lie in its place already is set aside to be merged.
      const least = sorted[middle] ?? 0;
      if ((sorted[middle - 1] ?? 0) <= least) continue;
      let at = middle - width;
      while ((sorted[at] ?? 0) <= least) at += 1;
      const aside = middle - at;
      for (let left = 0; left < aside; left += 1) {
        asidePlaces[left] = places[at + left] ?? 0;
        asideKeys[left] = sorted[at + left] ?? 0;
      }
      const end = Math.min(middle + width, n);
      let left = 0;
      let right = middle;
      while (left < aside && right < end) {
        const leftKey = asideKeys[left] ?? 0;
        const rightKey = sorted[right] ?? 0;
        if (leftKey <= rightKey) {
          sorted[at] = leftKey;
          places[at] = asidePlaces[left] ?? 0;
          left += 1;
        } else {
          const place = places[right] ?? 0;
          const passed = aside - left;
          while (wantedNext < inversions + passed) {
            found?.(asidePlaces[left + wantedNext - inversions] ?? 0, place);
            next += 1;
            wantedNext = wanted?.[next] ?? Number.POSITIVE_INFINITY;
          }
          inversions += passed;
          sorted[at] = rightKey;
          places[at] = place;
          right += 1;
        }
        at += 1;
      }
      for (; left < aside; left += 1, at += 1) {
        sorted[at] = asideKeys[left] ?? 0;
        places[at] = asidePlaces[left] ?? 0;
      }
    }
  }
  return { order: places, inversions };
}

/**
 * The places 0 to n-1 in that order.
 *
 * Example: placesInOrder(3) // [0, 1, 2]
 */
export function placesInOrder(n: number): Int32Array<ArrayBuffer> {
  const places = new Int32Array(n);
  for (let at = 0; at < n; at += 1) places[at] = at;
  return places;
}

/**
 * Pairs among `count` things.
 *
 * Example: pairs(4) // 6
 */
export const pairs = (count: number): number => (count < 2 ? 0 : (count * (count - 1)) / 2);

/**
 * Lengths of the runs of equal things among `count` in order, runs of one left out.
 *
 * Example: runLengths(5, (at) => [false, true, true, false, false][at]) // [3]
 */
export function runLengths(count: number, sameAsBefore: (at: number) => boolean): number[] {
  const lengths: number[] = [];
  let length = 1;
  for (let at = 1; at <= count; at += 1) {
    if (at < count && sameAsBefore(at)) {
      length += 1;
      continue;
    }
    if (length > 1) lengths.push(length);
    length = 1;
  }
  return lengths;
}
