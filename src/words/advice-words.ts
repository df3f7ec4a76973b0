import type { Advice } from "../../shared/advice/advice.ts";
import { isCued, type Rung } from "../../shared/advice/ladder.ts";
import { wordSeconds } from "./plan-summary.ts";
import type { Voice } from "./words.ts";

/** The advice in a sentence. */
export function wordDecision({ say }: Voice, { decision, toRung }: Advice): string {
  if (decision === "step-back" && !isCued(toRung)) return say("advice.stepBackUncued");
  return say(`advice.${decision}`);
}

/** Why: what the deciding sessions, or the checks, say. */
export function wordReason({ say, formats }: Voice, advice: Advice, name: string): string {
  const { reason, inputs, judgedRates } = advice;
  const isObserved = inputs.source === "observer";
  if (isObserved && reason === "no-sessions") return say("advice.observed.noSessions");
  if (isObserved && reason === "goal-held") {
    return say("advice.observed.goalHeld", { goal: formats.percent(inputs.goal) });
  }
  return say(`advice.reason.${reason}`, {
    name,
    goal: formats.percent(inputs.goal),
    have: judgedRates.length,
  });
}

/** What happens when the step is taken; past the last cue no plan changes, and that is said. */
export const wordThen = ({ say }: Voice, toRung: Rung): string =>
  isCued(toRung) ? say("advice.then.cues") : say(`advice.then.${toRung}`);

/** What the press that takes the step is called. */
export const wordAccept = ({ say }: Voice, toRung: Rung): string =>
  isCued(toRung) ? say("advice.acceptMove") : say(`advice.accept.${toRung}`);

/** The name of the phase that begins, as it stands on the graph; empty for its kind's own name. */
export function wordNewPhase(
  { say }: Voice,
  toRung: Rung,
  meanSeconds: number | undefined,
): string {
  if (meanSeconds !== undefined) {
    return say("advice.phase.cues", { mean: wordSeconds(say, meanSeconds) });
  }
  return toRung === "recording-without-cues" || toRung === "own-praise"
    ? say(`advice.phase.${toRung}`)
    : "";
}
