import type { Earning, EarningRules } from "../plan/earning.ts";
import { selfCounts } from "../record/counts.ts";
import type { SessionKind } from "../session/event.ts";
import type { SessionState } from "../session/state.ts";
import { matchedMarks } from "./matched-mark.ts";

/** The rules of which a session's worth is added up, as the ledger calls them. */
export const worthRules = ["mark", "on", "match", "goal", "work", "timed"] as const;
export type WorthRule = (typeof worthRules)[number];

/** Fewest marks for which the goal of a session can be reached. */
export const fewestGoalMarks = 5;

/** What a session pays by: its kind, and whether it came with an import. */
export interface Payer {
  readonly earning: Earning;
  readonly kind: SessionKind;
  readonly imported: boolean;
}

/** The rules that pay in a session, or null: only seatwork held here, under a plan that earns, pays. */
export function rulesOf({ earning, kind, imported }: Payer): EarningRules | null {
  return earning.kind === "none" || kind !== "seatwork" || imported ? null : earning.rules;
}

const nothing: Readonly<Record<WorthRule, number>> = {
  mark: 0,
  on: 0,
  match: 0,
  goal: 0,
  work: 0,
  timed: 0,
};

/**
 * What a session is worth to one student by each rule, in points, whole and never below zero.
 *
 * A pure function of the log and the plan it ran under: with cards typed later and corrections it changes,
 * and settling brings the ledger after it. Marks count as in `selfCounts`; totals pay as marks do. Pluses
 * counted at a glance pay by the rule for on-task marks until marks or totals take their place. A trial pays
 * nothing; a session that is left out for another reason keeps what it paid.
 *
 * Example: worthOf({ earning, kind: "seatwork", imported: false }, state, studentId).mark // 8
 */
export function worthOf(
  payer: Payer,
  state: SessionState,
  studentId: string,
): Readonly<Record<WorthRule, number>> {
  const rules = rulesOf(payer);
  if (rules === null || state.isTrial) return nothing;
  const { on, off } = selfCounts(state, studentId) ?? { on: 0, off: 0 };
  const marks = on + off;
  const pluses = marks === 0 ? (state.pluses.get(studentId) ?? 0) : on;
  const goalShare = state.ownGoals.get(studentId) ?? rules.goalShare;
  const reached = marks >= fewestGoalMarks && on / marks >= goalShare - 1e-9;
  return {
    mark: rules.mark * marks,
    on: rules.on * pluses,
    match: rules.match === 0 ? 0 : rules.match * matchedMarks(state, studentId),
    goal: reached ? rules.goal : 0,
    work: workWorth(rules, state.work.get(studentId)?.completed ?? 0),
    timed: rules.minute * minutesWorked(state, studentId),
  };
}

function workWorth({ item, workGoal, workItems }: EarningRules, completed: number): number {
  return item * completed + (completed >= workItems ? workGoal : 0);
}

/** Full minutes of running session time in which a student was not set aside. */
function minutesWorked(state: SessionState, studentId: string): number {
  if (state.status === "ready" || state.away.has(studentId)) return 0;
  const untilMs = state.endedAtMs ?? state.atMs;
  const aside = state.asideTime.get(studentId);
  const asideMs = (aside?.ms ?? 0) + (aside?.sinceMs == null ? 0 : untilMs - aside.sinceMs);
  return Math.max(0, Math.floor((untilMs - asideMs) / 60_000));
}
