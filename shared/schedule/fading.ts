import type { PlanSettings } from "../plan/plan.ts";
import { checkPlan, type PlanProblem } from "./check-plan.ts";

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
 * thinner step cannot meet is lowered to what it can, and the plan remembers what was asked
 * (`fewestCuesUnthinned`); any other problem is handed back, never repaired in silence.
 *
 * Example: fadingList(firstPlan, "abc", [{ meanSeconds: 240, sessions: 2 }]).length // 2
 */
export function fadingList(
  plan: PlanSettings,
  seriesSeed: string,
  steps: readonly FadingStep[],
): FadedSession[] {
  const plans = steps.flatMap(({ meanSeconds, sessions }) => {
    const faded = fadedPlan(plan, meanSeconds);
    const problems = checkPlan(faded);
    return Array.from({ length: sessions }, () => ({ plan: faded, problems }));
  });
  return plans.map((session, index) => ({
    ...session,
    number: index + 1,
    seed: fadingSeed(seriesSeed, index + 1),
  }));
}

/**
 * The seed of the N-th session of a series.
 *
 * Example: fadingSeed("abc", 2) // "abc/session-2"
 */
export function fadingSeed(seriesSeed: string, number: number): string {
  return `${seriesSeed}/session-${number}`;
}

/**
 * The plan with another mean, its gaps in proportion and its floor as near to what was asked as the mean
 * allows: a step back undoes what a step up did. Gaps are kept to the millisecond.
 *
 * Example: fadedPlan(firstPlan, 240).meanSeconds // 240
 */
export function fadedPlan(plan: PlanSettings, meanSeconds: number): PlanSettings {
  const growth = meanSeconds / plan.meanSeconds;
  const asked = plan.fewestCuesUnthinned ?? plan.fewestCues;
  const longest = plan.longestGapSeconds;
  const shortestGapSeconds = inMilliseconds(plan.shortestGapSeconds * growth);
  const faded: PlanSettings = {
    ...plan,
    meanSeconds,
    shortestGapSeconds,
    longestGapSeconds:
      longest === null ? null : grown(longest * growth, 2 * meanSeconds - shortestGapSeconds),
    fewestCues: asked,
    fewestCuesUnthinned: null,
  };
  const floorTooHigh = checkPlan(faded).find(
    ({ code }) => code === "fewestCuesImpossible" || code === "fewestCuesUnlikely",
  );
  return floorTooHigh === undefined
    ? faded
    : { ...floorTooHigh.nearest, fewestCuesUnthinned: asked };
}

/** A longest gap that was the least possible one stays so, whatever rounding did to the shortest. */
function grown(longest: number, leastPossible: number): number {
  const isLeast = Math.abs(longest - leastPossible) < 0.002;
  return inMilliseconds(isLeast ? leastPossible : longest);
}

function inMilliseconds(seconds: number): number {
  return Math.round(1000 * seconds) / 1000;
}

/**
 * Steps from the first mean up to the last, each longer than the one before by the same factor as nearly as
 * means in whole seconds allow.
 *
 * Example: evenFadingSteps({ firstMeanSeconds: 60, lastMeanSeconds: 240, steps: 3, sessionsPerStep: 2 }).length // 3
 *
 * @throws RangeError unless there are at least two steps, the first mean is above zero, and the means lie so
 * far apart that each step is longer than the one before.
 */
export function evenFadingSteps(options: {
  readonly firstMeanSeconds: number;
  readonly lastMeanSeconds: number;
  readonly steps: number;
  readonly sessionsPerStep: number;
}): FadingStep[] {
  const { firstMeanSeconds: first, lastMeanSeconds: last, steps, sessionsPerStep } = options;
  if (!(steps >= 2 && first > 0)) {
    throw new RangeError(
      `steps must be 2 or more, and firstMeanSeconds above 0; got ${steps} and ${first}.`,
    );
  }
  const means = Array.from({ length: steps }, (_, index) =>
    Math.round(first * (last / first) ** (index / (steps - 1))),
  );
  if (!means.every((mean, index) => mean > (means[index - 1] ?? 0))) {
    throw new RangeError(
      `steps must each grow by a second or more from ${first} s to ${last} s; got ${steps} steps. Choose a longer last mean or fewer steps.`,
    );
  }
  return means.map((meanSeconds) => ({ meanSeconds, sessions: sessionsPerStep }));
}
