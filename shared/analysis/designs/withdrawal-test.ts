import { type NotComputable, notComputable } from "../../statistics/computed.ts";
import { mean } from "../../statistics/moments.ts";
import type { RandomizationReason } from "../phases/randomization-test.ts";
import type { DayPoint } from "../phases/trend.ts";

/** A change from baseline to program or back, with the days from which its day was drawn. */
export interface DrawnChange {
  readonly permittedDays: readonly number[];
  readonly day: number;
}

export interface WithdrawalTest {
  readonly kind: "computed";
  /** Mean under the program less mean without it, in the points' unit. */
  readonly difference: number;
  /** Share of all ways to draw the days of the changes that give at least this difference upward. */
  readonly probability: number;
  readonly ways: number;
  readonly changes: number;
}

const mostWays = 100_000;

/**
 * Exact randomization test of a withdrawal design whose days of change were drawn: baseline, program, baseline,
 * program and so on. Under "the program made no difference" every way to draw the days was as likely, whatever
 * trend, spread or alike neighbours the record has.
 *
 * Source: Onghena P (1992), Behavioral Assessment 14:153-171 (from memory).
 *
 * @param points of all phases, in any order
 * @param changes in order of time; the first begins the program; windows do not overlap
 *
 * Example: withdrawalTest([], []) // not-computable, "nothing-drawn"
 */
export function withdrawalTest(
  points: readonly DayPoint[],
  changes: readonly DrawnChange[],
): WithdrawalTest | NotComputable<RandomizationReason | "too-many-ways"> {
  const permitted = changes.map(({ permittedDays }) => [...new Set(permittedDays)]);
  const all = permitted.reduce((product, { length }) => product * length, 1);
  if (all < 2) return notComputable("nothing-drawn");
  if (all > mostWays) return notComputable("too-many-ways");
  if (changes.some(({ day }, at) => !permitted[at]?.includes(day))) {
    return notComputable("start-not-permitted");
  }
  const seen = differenceAt(
    points,
    changes.map(({ day }) => day),
  );
  if (seen === null) return notComputable("start-leaves-phase-empty");
  const slack = 1e-9 * Math.max(1, Math.abs(seen));
  let reached = 0;
  for (const days of waysOf(permitted)) {
    const difference = differenceAt(points, days);
    if (difference === null) return notComputable("start-leaves-phase-empty");
    if (difference >= seen - slack) reached += 1;
  }
  return {
    kind: "computed",
    difference: seen,
    probability: reached / all,
    ways: all,
    changes: changes.length,
  };
}

/** All ways to take one of each list. */
const waysOf = (lists: readonly (readonly number[])[]): number[][] =>
  lists.reduce<number[][]>(
    (ways, list) => ways.flatMap((way) => list.map((each) => [...way, each])),
    [[]],
  );

/** Null when a phase would be without a point. */
function differenceAt(points: readonly DayPoint[], days: readonly number[]): number | null {
  const phases: number[][] = Array.from({ length: days.length + 1 }, () => []);
  for (const { day, value } of points) {
    phases[days.filter((change) => change <= day).length]?.push(value);
  }
  if (phases.some(({ length }) => length === 0)) return null;
  const under = (program: boolean) => phases.filter((_, at) => (at % 2 === 1) === program).flat();
  return mean(under(true)) - mean(under(false));
}
