import { type CheckedSession, type CheckStep, fadeChecks } from "./check-fading.ts";

/**
 * The step at which checks stand now, from every session so far in order: starts at every cue, and is
 * moved by `fadeChecks` session by session. Each change of step begins a new count.
 */
export function checkStepAfter(sessions: readonly CheckedSession[]): CheckStep {
  let step: CheckStep = 1;
  let since: CheckedSession[] = [];
  for (const session of sessions) {
    since.push(session);
    const { every, change } = fadeChecks(step, since);
    if (change === "stay") continue;
    if (every !== step) since = [];
    step = every;
  }
  return step;
}
