import { checkPlan, type PlanProblem } from "../plan/check-plan.ts";
import type { PlanSettings } from "../plan/plan.ts";

/** So many sessions at one mean interval. */
export interface FadingStep {
  readonly meanSeconds: number;
  readonly sessions: number;
}

/** One session of a fading list. */
export interface FadedSession {
  /** 1 for the first session of the list. */
  readonly number: number;
  readonly seed: string;
  readonly plan: PlanSettings;
  /** Empty when the session can be run; the first step of a list that asks too much shows why. */
  readonly problems: readonly PlanProblem[];
}

/**
 * A list of sessions whose cues thin out step by step.
 *
 * Each session has its own seed, `seriesSeed/session-N`, so a list that is made longer or whose later
 * steps change keeps every earlier schedule as it was. Shortest and longest gap grow with the mean, so
 * that each step keeps the shape of the law and what a listener could guess. A fewest-cues floor that a
 * thinner step cannot meet is lowered to what it can; any other problem is handed back, never mended in
 * silence.
 */
export function fadingList(
  plan: PlanSettings,
  seriesSeed: string,
  steps: readonly FadingStep[],
): FadedSession[] {
  const plans = steps.flatMap(({ meanSeconds, sessions }) => {
    const faded = fadedPlan(plan, meanSeconds);
    return Array.from({ length: sessions }, () => ({ plan: faded, problems: checkPlan(faded) }));
  });
  return plans.map((session, index) => ({
    ...session,
    number: index + 1,
    seed: fadingSeed(seriesSeed, index + 1),
  }));
}

/** The seed of the N-th session of a series. */
export function fadingSeed(seriesSeed: string, number: number): string {
  return `${seriesSeed}/session-${number}`;
}

/** The plan with another mean, its gaps in proportion and its floor no higher than the mean allows. */
export function fadedPlan(plan: PlanSettings, meanSeconds: number): PlanSettings {
  const growth = meanSeconds / plan.meanSeconds;
  const longest = plan.longestGapSeconds;
  const faded: PlanSettings = {
    ...plan,
    meanSeconds,
    shortestGapSeconds: plan.shortestGapSeconds * growth,
    longestGapSeconds: longest === null ? null : longest * growth,
  };
  const floorTooHigh = checkPlan(faded).find(
    ({ code }) => code === "fewestCuesImpossible" || code === "fewestCuesUnlikely",
  );
  return floorTooHigh?.nearest ?? faded;
}

/**
 * Steps from the first mean to the last, each longer than the one before by the same factor, means in
 * whole seconds.
 *
 * Errors: RangeError unless there are at least two steps and both means are above zero.
 */
export function evenFadingSteps(options: {
  readonly firstMeanSeconds: number;
  readonly lastMeanSeconds: number;
  readonly steps: number;
  readonly sessionsPerStep: number;
}): FadingStep[] {
  const { firstMeanSeconds: first, lastMeanSeconds: last, steps, sessionsPerStep } = options;
  if (!(steps >= 2 && first > 0 && last > 0)) {
    throw new RangeError("Fading needs at least two steps and mean intervals above zero.");
  }
  return Array.from({ length: steps }, (_, index) => ({
    meanSeconds: Math.round(first * (last / first) ** (index / (steps - 1))),
    sessions: sessionsPerStep,
  }));
}
