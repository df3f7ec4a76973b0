import { type NotComputable, notComputable } from "../../statistics/computed.ts";
import { mean } from "../../statistics/moments.ts";
import type { RandomizationReason } from "../phases/randomization-test.ts";
import type { DayPoint } from "../phases/trend.ts";

/** One student, or one group, whose start was drawn apart from the others'. */
export interface StaggeredCase {
  readonly points: readonly DayPoint[];
  /** Days from which the start was drawn, each equally likely, and the day drawn. */
  readonly permittedDays: readonly number[];
  readonly day: number;
}

export interface StaggeredTest {
  readonly kind: "computed";
  /** Mean over cases of: mean from the start on, less mean before it. In the points' unit. */
  readonly difference: number;
  /** Share of all ways to draw the starts that give at least this difference upward. */
  readonly probability: number;
  /** Share that give at least this difference in either direction. */
  readonly twoSidedProbability: number;
  /** In how many ways the starts could have been drawn; no probability can be below one over this. */
  readonly ways: number;
  readonly cases: number;
}

/** Half of the cases together may be drawn in at most so many ways. */
const mostWaysOfHalf = 1_000_000;

/**
 * Exact randomization test of a multiple baseline whose starts were drawn, each from days of its own. Under "the
 * starts made no difference" every way to draw them was as likely, so the probability is a plain count, whatever
 * trends, spreads or alike neighbours the records have.
 *
 * All ways are counted: the sums of one half of the cases are sorted, and those of the other half looked up.
 *
 * Source: Marascuilo LA, Busk PL (1988), Behavioral Assessment 10:1-28; for windows one after the other,
 * Wampold BE, Worsham NL (1986) there 8:135-143 (both from memory).
 *
 * Example: staggeredTest([]) // not-computable, "nothing-drawn"
 */
export function staggeredTest(
  cases: readonly StaggeredCase[],
): StaggeredTest | NotComputable<RandomizationReason | "too-many-ways"> {
  if (cases.length === 0) return notComputable("nothing-drawn");
  const ways: number[][] = [];
  let seen = 0;
  for (const { points, permittedDays, day } of cases) {
    const permitted = [...new Set(permittedDays)];
    const at = permitted.indexOf(day);
    if (at < 0) return notComputable("start-not-permitted");
    const differences = permitted.map((start) => differenceAt(points, start));
    if (differences.includes(null)) return notComputable("start-leaves-phase-empty");
    const known = differences.map((difference) => difference ?? 0);
    ways.push(known);
    seen += known[at] ?? 0;
  }
  const all = ways.reduce((product, { length }) => product * length, 1);
  if (all < 2) return notComputable("nothing-drawn");
  const [one, other] = halves(ways);
  if (one === null || other === null) return notComputable("too-many-ways");
  // Sums in another order may differ in the last digit; a tie must stay a tie.
  const slack = 1e-9 * Math.max(1, Math.abs(seen));
  const above = countAtLeast(one, other, seen - slack);
  const size = Math.abs(seen) - slack;
  // Nothing is nearer to no difference than a difference of nothing.
  const outside =
    size <= 0
      ? all
      : countAtLeast(one, other, size) +
        countAtLeast(
          one.map((sum) => -sum),
          other.map((sum) => -sum),
          size,
        );
  return {
    kind: "computed",
    difference: seen / cases.length,
    probability: above / all,
    twoSidedProbability: outside / all,
    ways: all,
    cases: cases.length,
  };
}

function differenceAt(points: readonly DayPoint[], start: number): number | null {
  const before = points.filter(({ day }) => day < start).map(({ value }) => value);
  const after = points.filter(({ day }) => day >= start).map(({ value }) => value);
  return before.length === 0 || after.length === 0 ? null : mean(after) - mean(before);
}

/** All sums that two halves of the cases can give; null where there are too many. */
function halves(ways: readonly (readonly number[])[]): [number[] | null, number[] | null] {
  const middle = Math.ceil(ways.length / 2);
  return [sumsOf(ways.slice(0, middle)), sumsOf(ways.slice(middle))];
}

function sumsOf(ways: readonly (readonly number[])[]): number[] | null {
  if (ways.reduce((product, { length }) => product * length, 1) > mostWaysOfHalf) return null;
  return ways.reduce<number[]>(
    (sums, differences) => sums.flatMap((sum) => differences.map((difference) => sum + difference)),
    [0],
  );
}

/** In how many pairs, one of each list, the two together reach a bound. */
function countAtLeast(one: readonly number[], other: readonly number[], bound: number): number {
  const rising = one.toSorted((a, b) => a - b);
  const falling = other.toSorted((a, b) => b - a);
  let count = 0;
  let from = rising.length;
  // As the partner grows smaller, fewer of the rising ones suffice.
  let at = 0;
  for (const partner of falling.toReversed()) {
    while (at < rising.length && (rising[rising.length - 1 - at] ?? 0) + partner >= bound) at += 1;
    from = rising.length - at;
    count += rising.length - from;
  }
  return count;
}
