import type { CheckPace } from "../plan/plan.ts";
import {
  type CheckedSession,
  type CheckStep,
  type FadingDecision,
  fadeChecks,
} from "./check-fading.ts";

/** Where checks stand, and why. */
export interface CheckStanding {
  readonly every: CheckStep;
  /** The decision that brought checks to this step, or the newest while they never left every cue. */
  readonly because: FadingDecision;
}

/**
 * The step at which checks stand now, from every session so far in order: starts at every cue, and is
 * moved by `fadeChecks` session by session. Each change of step begins a new count.
 *
 * @throws RangeError as `fadeChecks`.
 */
export function checkStanding(sessions: readonly CheckedSession[]): CheckStanding {
  let because = fadeChecks(1, []);
  let hasMoved = false;
  let since: CheckedSession[] = [];
  for (const session of sessions) {
    since.push(session);
    const decision = fadeChecks(because.every, since);
    if (decision.change !== "stay") {
      because = decision;
      hasMoved = true;
      since = [];
    } else if (!hasMoved) {
      because = decision;
    }
  }
  return { every: because.every, because };
}

/** The step that a teacher chose; null leaves it to the rule. */
export const stepOfPace: Readonly<Record<CheckPace, CheckStep | null>> = {
  automatic: null,
  every: 1,
  second: 2,
  fourth: 4,
  tenth: 10,
};
