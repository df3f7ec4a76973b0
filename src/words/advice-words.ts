import { type Advice, adviceThresholds } from "../../shared/advice/advice.ts";
import { chanceRule } from "../../shared/advice/goal-chance.ts";
import { isCued, type Rung } from "../../shared/advice/ladder.ts";
import { wordEvery } from "./plan-summary.ts";
import type { Voice } from "./words.ts";

/** The advice in a sentence. */
export function wordDecision({ say }: Voice, { decision, toRung }: Advice): string {
  if (decision === "step-back" && !isCued(toRung)) return say("advice.stepBackUncued");
  return say(`advice.${decision}`);
}

/** Why: what the deciding sessions, or the checks, say. */
export function wordReason(voice: Voice, advice: Advice, name: string): string {
  const { say, formats } = voice;
  const { reason, inputs, judged } = advice;
  const isObserved = inputs.source === "observer";
  if (isObserved && reason === "no-sessions") return say("advice.observed.noSessions");
  const { work } = inputs;
  const values = {
    name,
    goal: formats.percent(inputs.goal),
    sessions: judged.rates.length,
    cues: judged.marks,
    fewest: chanceRule.fewestMarks,
    rate: formats.percent(judged.rate ?? 0),
    chance: wordChance(voice, judged.chance ?? 0),
    checks: inputs.agreement.table.compared,
    workNow: formats.percent(work?.now ?? 0),
    workBefore: formats.percent(work?.before ?? 0),
  };
  if (isObserved && reason === "goal-held") return say("advice.observed.goalHeld", values);
  return say(`advice.reason.${reason}`, values);
}

/**
 * How likely it is that the rate is at or above the goal, in words with the number of ten: words of their
 * own, because "clearly" and "probably" stand for intervals of changes.
 */
export function wordChance({ say }: Voice, chance: number): string {
  const inTen = Math.min(9, Math.max(1, Math.round(10 * chance)));
  return say(`advice.chance.${chanceWord(chance, inTen)}`, { inTen });
}

function chanceWord(chance: number, inTen: number) {
  if (chance >= adviceThresholds.holds) return "safe";
  if (chance <= adviceThresholds.missed) return "hardly";
  if (inTen === 5) return "even";
  return inTen > 5 ? "likely" : "unlikely";
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
    return say("advice.phase.cues", { mean: wordEvery(say, meanSeconds) });
  }
  return toRung === "recording-without-cues" || toRung === "own-praise"
    ? say(`advice.phase.${toRung}`)
    : "";
}
