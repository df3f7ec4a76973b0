import type { Earning } from "../plan/earning.ts";
import { expectedCues, type KeptCountSettings } from "../schedule/kept-counts.ts";
import { raisedRules } from "./raised-rules.ts";
import { usualTimes } from "./truth.ts";

/** The most that one rule pays. */
const mostTimes = 20;

/**
 * What a plan's sessions pay once its cues are thinner: points per mark are raised by old / new expected
 * marks, rounded up, so that a student is not fined for succeeding. The usual rule stays the usual rule and
 * pays so many times as much, so that a match still follows the checks at each start. Denser cues change
 * nothing, nor does any rule that does not go by marks; no rule pays more than 20.
 *
 * Example: thinnedWorth(earning, { ...firstPlan, meanSeconds: 120 }, { ...firstPlan, meanSeconds: 240 })
 *
 * @throws RangeError when one of the plans cannot be run.
 */
export function thinnedWorth(
  earning: Earning,
  before: KeptCountSettings,
  after: KeptCountSettings,
): Earning {
  if (earning.kind === "none") return earning;
  const times = expectedCues(before) / expectedCues(after);
  if (times <= 1) return earning;
  const rules = raisedRules(earning.rules, times);
  if (earning.kind === "own") return { ...earning, rules };
  const usual = Math.min(mostTimes, Math.ceil(usualTimes(earning.rules) * times - 1e-9));
  return { ...earning, rules: { ...rules, mark: usual } };
}
