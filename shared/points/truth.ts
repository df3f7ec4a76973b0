import { type EarningRules, noRules } from "../plan/earning.ts";
import { mostStudentsPerCheck } from "../plan/plan.ts";
import { raisedRules } from "./raised-rules.ts";

/** A match is never worth less than this under the usual rule. */
const leastMatch = 2;
/** Where a match would have to be worth more than this, the usual rule pays on-task marks nothing. */
const greatestMatch = 10;

/**
 * The usual rule: a point for each recorded mark, one more for on task, and for a mark that equals a spot
 * check as much as makes the truth pay. With a share c of cues checked, somebody off task expects
 * mark + on for saying yes, and mark + c match for saying no; so match = ceil(on / c), at least 2. Where
 * that would exceed 10, on-task marks pay nothing of their own, and recording and matching alone pay.
 *
 * Example: usualRules(0.15).match // 7
 *
 * @param checkedShare share of a student's cues that are checked, 0 to 1
 * @param times how many times as much all of it pays, since cues were thinned
 */
export function usualRules(checkedShare: number, times = 1): EarningRules {
  const match = Math.max(leastMatch, Math.ceil(1 / checkedShare - 1e-9));
  const rules =
    match > greatestMatch
      ? { ...noRules, mark: 1, match: leastMatch }
      : { ...noRules, mark: 1, on: 1, match };
  return raisedRules(rules, times);
}

/** How many times as much a plan under the usual rule pays: what it says a mark is worth. */
export const usualTimes = ({ mark }: Pick<EarningRules, "mark">): number => Math.max(1, mark);

/**
 * Whether an honest record is worth at least as much as every other, on average. `not-claimed` where a goal
 * by the student's own marks pays too: then no such promise can be made.
 *
 * Example: truthPays(usualRules(0.15), 0.15) // "pays"
 */
export function truthPays(
  { on, match, goal }: EarningRules,
  checkedShare: number,
): "pays" | "does-not-pay" | "not-claimed" {
  if (checkedShare * match < on - 1e-9) return "does-not-pay";
  return goal > 0 ? "not-claimed" : "pays";
}

/**
 * Points a day that a student gains by recording on task at every cue instead of the truth; below zero
 * where the truth pays more. (1 - p)(on - c match) a cue.
 *
 * Example: alwaysYesGain({ ...noRules, on: 1 }, 0.1, { onTask: 0.5, cuesADay: 30 }) // 15
 */
export function alwaysYesGain(
  { on, match }: EarningRules,
  checkedShare: number,
  { onTask, cuesADay }: { readonly onTask: number; readonly cuesADay: number },
): number {
  return (1 - onTask) * (on - checkedShare * match) * cuesADay;
}

/** The smallest worth of a match for which the truth pays; null when nothing is checked. */
export function leastTruthfulMatch(on: number, checkedShare: number): number | null {
  return checkedShare > 0 ? Math.ceil(on / checkedShare - 1e-9) : null;
}

/**
 * Share of a student's cues that will be checked, before any session tells: the students of one check
 * over all students, at one cue in `every`.
 *
 * Example: plannedCheckedShare({ studentsPerCheck: 2, every: 1 }, 8) // 0.25
 */
export function plannedCheckedShare(
  { studentsPerCheck, every }: { readonly studentsPerCheck: number; readonly every: number },
  students: number,
): number {
  return students === 0 ? 0 : Math.min(1, studentsPerCheck / (students * every));
}

/**
 * How many students a check at every cue has to ask about, so that the truth pays under these rules; null where even
 * the most are too few.
 *
 * Example: leastTruthfulChecks({ ...noRules, on: 1, match: 6 }, 12) // 2
 */
export function leastTruthfulChecks(rules: EarningRules, students: number): number | null {
  for (let perCheck = 1; perCheck <= mostStudentsPerCheck; perCheck++) {
    const share = plannedCheckedShare({ studentsPerCheck: perCheck, every: 1 }, students);
    if (truthPays(rules, share) !== "does-not-pay") return perCheck;
  }
  return null;
}
