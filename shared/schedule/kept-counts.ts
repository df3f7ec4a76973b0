import { mostCues } from "../plan/most-cues.ts";
import { type CountSettings, chanceOfAtLeast, greatestCountWithChance } from "./cue-count.ts";

/** What the number of cues depends on once schedules with too few are put aside. */
export interface KeptCountSettings extends CountSettings {
  readonly fewestCues: number;
}

/** One number of cues a session can have, and how likely that is, 0 to 1. */
export interface KeptCount {
  readonly cues: number;
  readonly chance: number;
}

/** Numbers of cues less likely than this, below and above, are left out. */
const negligible = 1e-7;

// Counting takes up to a few hundredths of a second, and a planner asks about one plan again and again.
const counted = new WeakMap<KeptCountSettings, readonly KeptCount[]>();

/**
 * How likely each number of cues is in a session as `sessionSchedule` draws it: the chances of one draw,
 * given that it has at least `fewestCues` and at most `mostCues`. Ascending; the chances add up to 1.
 *
 * As accurate as `chanceOfAtLeast`.
 *
 * Example: keptCounts(firstPlan)[0].cues // 1
 *
 * @throws RangeError when no draw can be kept.
 */
export function keptCounts(plan: KeptCountSettings): readonly KeptCount[] {
  const known = counted.get(plan) ?? countsOf(plan);
  counted.set(plan, known);
  return known;
}

function countsOf(plan: KeptCountSettings): KeptCount[] {
  const drawn: KeptCount[] = [];
  // Where nearly every draw has more cues, nothing is lost by beginning later.
  let cues = Math.max(plan.fewestCues, greatestCountWithChance(plan, 1 - negligible));
  let reached = chanceOfAtLeast(plan, cues);
  const least = negligible * reached;
  while (reached > least && cues <= mostCues) {
    // Chances laid on a grid may rise by a hair where they should fall.
    const next = Math.min(reached, chanceOfAtLeast(plan, cues + 1));
    drawn.push({ cues, chance: reached - next });
    reached = next;
    cues += 1;
  }
  const kept = drawn.reduce((sum, { chance }) => sum + chance, 0);
  if (kept === 0) {
    throw new RangeError(
      `plan must have sessions of ${plan.fewestCues} to ${mostCues} cues; got none.`,
    );
  }
  return drawn.map(({ cues, chance }) => ({ cues, chance: chance / kept }));
}

/**
 * Cues that a session of this plan has on average.
 *
 * Example: expectedCues(firstPlan) // 9.8473
 *
 * @throws RangeError as for `keptCounts`.
 */
export function expectedCues(plan: KeptCountSettings): number {
  return keptCounts(plan).reduce((sum, { cues, chance }) => sum + cues * chance, 0);
}

/** How many cues to expect: about the mean, and in four sessions of five from `least` to `most`. */
export interface CueSpan {
  readonly mean: number;
  readonly least: number;
  readonly most: number;
}

/**
 * The whole number of cues next to the mean, and the 10th and 90th percentile: the least n with
 * P(N <= n) >= .1 and >= .9.
 *
 * Example: cueSpan(firstPlan) // { mean: 10, least: 7, most: 13 }
 *
 * @throws RangeError as for `keptCounts`.
 */
export function cueSpan(plan: KeptCountSettings): CueSpan {
  const counts = keptCounts(plan);
  const quantile = (share: number) => {
    let reached = 0;
    for (const { cues, chance } of counts) {
      reached += chance;
      if (reached >= share) return cues;
    }
    return counts.at(-1)?.cues ?? 0;
  };
  return { mean: Math.round(expectedCues(plan)), least: quantile(0.1), most: quantile(0.9) };
}
