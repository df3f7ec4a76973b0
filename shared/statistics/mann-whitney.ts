import { type NotComputable, notComputable } from "./computed.ts";
import { twoSidedTail } from "./normal.ts";
import { countPairs } from "./pair-counts.ts";

export interface MannWhitney {
  readonly kind: "computed";
  /** Pairs in which the B point is higher, ties counting one half. */
  readonly u: number;
  /** Two-sided p value. */
  readonly p: number;
  /** `exact` counts every way to deal the points out to the two phases; `normal` approximates it. */
  readonly method: "exact" | "normal";
}

/** With more points than this in both phases together the normal approximation is as good. */
const mostForExact = 60;

/**
 * Mann-Whitney's test of B against A, two-sided: if the points had been dealt out to the two phases by
 * chance, how often would they lie at least this far apart?
 *
 * Up to 60 points the answer is exact, ties too: every way to pick one phase's points from all points as
 * they are is counted (conditional on the ties, by mid-ranks), and the smaller tail is doubled, at most
 * 1. So three points against three can give nothing below 2/20 = .10. With more points it is normal
 * with the variance for ties and a continuity correction of one half. Points may be in any one unit.
 *
 * Sources: Mann HB, Whitney DR (1947) Annals of Mathematical Statistics 18:50-60; for ties Lehmann EL
 * (1975) Nonparametrics: Statistical Methods Based on Ranks, chapter 1 (cited from memory).
 *
 * Example: mannWhitney([1, 2, 3], [4, 5, 6]).p // 0.1
 */
export function mannWhitney(
  a: readonly number[],
  b: readonly number[],
): MannWhitney | NotComputable<"empty-phase"> {
  if (a.length === 0 || b.length === 0) return notComputable("empty-phase");
  const { higher, tied } = countPairs(a, b);
  const u = higher + tied / 2;
  const exact = a.length + b.length <= mostForExact;
  return {
    kind: "computed",
    u,
    p: exact ? exactP(a, b) : normalP(a, b, u),
    method: exact ? "exact" : "normal",
  };
}

/** Works on the smaller phase: its sum of ranks says the same as the other's, in fewer steps. */
function exactP(a: readonly number[], b: readonly number[]): number {
  const [few, many] = a.length <= b.length ? [a, b] : [b, a];
  const ranks = doubledRanks([...few, ...many]);
  const seen = sumOf(ranks.slice(0, few.length));
  const ways = waysToSum(ranks, few.length);
  let all = 0;
  let atMost = 0;
  let atLeast = 0;
  ways.forEach((count, sum) => {
    all += count;
    if (sum <= seen) atMost += count;
    if (sum >= seen) atLeast += count;
  });
  return Math.min(1, (2 * Math.min(atMost, atLeast)) / all);
}

/** At each sum: how many ways there are to pick `size` of the ranks that add up to it. */
function waysToSum(ranks: readonly number[], size: number): Float64Array {
  const most = sumOf(ranks.toSorted((one, other) => other - one).slice(0, size));
  const ways = Array.from({ length: size + 1 }, () => new Float64Array(most + 1));
  const none = ways[0];
  if (none !== undefined) none[0] = 1;
  for (const rank of ranks) {
    // From the largest size down, so that no rank is picked twice.
    for (let picked = size; picked >= 1; picked -= 1) {
      const before = ways[picked - 1];
      const after = ways[picked];
      if (before === undefined || after === undefined) continue;
      for (let sum = rank; sum <= most; sum += 1) {
        after[sum] = (after[sum] ?? 0) + (before[sum - rank] ?? 0);
      }
    }
  }
  return ways[size] ?? new Float64Array();
}

/** Twice each value's rank, so that the mean rank of tied values is a whole number too. */
function doubledRanks(values: readonly number[]): number[] {
  const ranks = new Array<number>(values.length).fill(0);
  for (const { places, first } of tieGroups(values)) {
    for (const place of places) ranks[place] = 2 * first + places.length + 1;
  }
  return ranks;
}

function normalP(a: readonly number[], b: readonly number[], u: number): number {
  const pairs = a.length * b.length;
  const all = a.length + b.length;
  const groups = tieGroups([...a, ...b]);
  const tied = groups.reduce((sum, { places: { length: t } }) => sum + t ** 3 - t, 0);
  const variance = (pairs / 12) * (all + 1 - tied / (all * (all - 1)));
  const distance = Math.max(0, Math.abs(u - pairs / 2) - 0.5);
  return variance <= 0 ? 1 : twoSidedTail(distance / Math.sqrt(variance));
}

/** Values that are equal, in ascending order: their places in the list, and how many are lower. */
function tieGroups(values: readonly number[]) {
  const order = values
    .map((value, place) => ({ value, place }))
    .sort((one, other) => one.value - other.value);
  const groups: { readonly places: number[]; readonly first: number }[] = [];
  order.forEach(({ value, place }, at) => {
    const last = groups.at(-1);
    if (last !== undefined && order[at - 1]?.value === value) last.places.push(place);
    else groups.push({ places: [place], first: at });
  });
  return groups;
}

const sumOf = (numbers: readonly number[]): number => numbers.reduce((sum, one) => sum + one, 0);
