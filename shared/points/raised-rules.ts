import type { EarningRules } from "../plan/earning.ts";

/** The most that one rule pays. */
const most = 20;

/**
 * What marks pay so many times over, rounded up; rules that do not go by marks stay. A match is raised with
 * the on-task mark beside it, so where the truth paid it still does. No rule pays more than 20: where a
 * match would have to, an on-task mark pays less and a recorded mark as much more, yes or no alike.
 *
 * Example: raisedRules({ ...noRules, mark: 1, on: 1, match: 7 }, 2).match // 14
 */
export function raisedRules(rules: EarningRules, times: number): EarningRules {
  const up = (points: number) => Math.max(0, Math.ceil(points * times - 1e-9));
  const [mark, on] = [up(rules.mark), up(rules.on)];
  const withOn = rules.on === 0 ? 0 : Math.ceil((rules.match * on) / rules.on - 1e-9);
  const match = Math.max(up(rules.match), withOn);
  if (match <= most) {
    return { ...rules, mark: Math.min(most, mark), on: Math.min(most, on), match };
  }
  // The least share of checks for which the truth paid before.
  const share = rules.on / rules.match;
  const covered = Math.min(on, Math.floor(most * share + 1e-9));
  const instead = on - covered + Math.ceil((match - most) * share - 1e-9);
  return { ...rules, mark: Math.min(most, mark + instead), on: covered, match: most };
}
