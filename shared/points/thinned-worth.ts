import type { Earning, EarningRules } from "../plan/earning.ts";
import { expectedCues, type KeptCountSettings } from "../schedule/kept-counts.ts";

/** The most that one rule pays. */
const most = 20;

/**
 * What a plan's sessions pay once its cues are thinner: points per mark are raised by old / new expected
 * marks, rounded up, so that a student is not fined for succeeding. A match is raised with the on-task mark
 * beside it, so where the truth paid it still does. Denser cues change nothing, nor does any rule that does
 * not go by marks; no rule pays more than 20.
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
  return { ...earning, kind: "own", rules: raised(earning.rules, times) };
}

function raised(rules: EarningRules, times: number): EarningRules {
  const up = (points: number) => Math.min(most, Math.max(0, Math.ceil(points * times - 1e-9)));
  const on = up(rules.on);
  const withOn = rules.on === 0 ? 0 : Math.ceil((rules.match * on) / rules.on);
  return {
    ...rules,
    mark: up(rules.mark),
    on,
    match: Math.min(most, Math.max(up(rules.match), withOn)),
  };
}
