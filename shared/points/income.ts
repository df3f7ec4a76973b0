import type { EarningRules } from "../plan/earning.ts";
import type { KeptCount } from "../schedule/kept-counts.ts";
import { betaBinomial } from "./beta-binomial.ts";
import {
  always,
  chanceAtLeast,
  type Distribution,
  meanOf,
  poisson,
  quantileOf,
  repeated,
  sumOf,
  varianceOf,
} from "./distribution.ts";
import { fewestGoalMarks } from "./worth.ts";

/** How a student records, as far as an income depends on it. */
export interface Recorder {
  /** Share of marks that are on task, 0 to 1. */
  readonly onTask: number;
  /** Share of cues that get a mark, 0 to 1. */
  readonly answers: number;
  /** How many times as large a session's variance is as for independent marks; at least 1. */
  readonly designEffect: number;
  /** Share of cues that are checked, and share of checked marks that match; 0 to 1. */
  readonly checked: number;
  readonly matching: number;
  /** Items completed in a session, on average. */
  readonly items: number;
}

/** Points that a session pays on average, their spread, and the chances of each number. */
export interface Income {
  readonly mean: number;
  readonly variance: number;
  readonly quantiles: { readonly q10: number; readonly q50: number; readonly q90: number };
  readonly chances: Distribution;
}

/**
 * Correlation of two marks of a session: what its design effect means at the expected number of cues.
 * clip((phi - 1) / (E[N] - 1), 0, 0.5).
 */
export function markCorrelation(designEffect: number, counts: readonly KeptCount[]): number {
  const expected = counts.reduce((sum, { cues, chance }) => sum + cues * chance, 0);
  if (expected <= 1) return designEffect > 1 ? 0.5 : 0;
  return Math.min(0.5, Math.max(0, (designEffect - 1) / (expected - 1)));
}

/**
 * Exact chances of a session's points, by mixture over the exact number of its cues.
 *
 * Given n cues, marks on task, off task and missing are Dirichlet-multinomial: so recorded marks are
 * beta-binomial with the answer rate a, on-task marks beta-binomial with a p, both with the correlation of
 * `markCorrelation`. Matches are binomial and taken as independent of the marks; items are taken as sure.
 *
 * Example: sessionIncome(keptCounts(plan), { ...noRules, on: 1 }, recorder).mean // 7.484
 */
export function sessionIncome(
  counts: readonly KeptCount[],
  rules: EarningRules,
  recorder: Recorder,
  /** Full minutes of the session. */
  minutes = 0,
): Income {
  const rho = markCorrelation(recorder.designEffect, counts);
  const sure =
    rules.minute * minutes +
    Math.round(rules.item * recorder.items) +
    (recorder.items >= rules.workItems ? rules.workGoal : 0);
  const parts = counts.map(({ cues, chance }) => ({
    chance,
    points: sumOf(ofCues(cues, rules, recorder, rho), always(sure)),
  }));
  const longest = Math.max(1, ...parts.map(({ points }) => points.length));
  const mixed = new Float64Array(longest);
  for (const { chance, points } of parts) {
    for (const [value, each] of points.entries())
      mixed[value] = (mixed[value] ?? 0) + chance * each;
  }
  return incomeOf(mixed);
}

/** The points of a day: its sessions, and points given that are Poisson with their mean of a day. */
export function dayIncome(session: Income, sessions: number, givenADay: number): Income {
  return incomeOf(sumOf(repeated(session.chances, sessions), poisson(givenADay)));
}

/** Mean, variance and quantiles of some chances. */
export function incomeOf(chances: Distribution): Income {
  return {
    mean: meanOf(chances),
    variance: varianceOf(chances),
    quantiles: {
      q10: quantileOf(chances, 0.1),
      q50: quantileOf(chances, 0.5),
      q90: quantileOf(chances, 0.9),
    },
    chances,
  };
}

/** P(income >= points). */
export const chanceOf = ({ chances }: Income, points: number): number =>
  chanceAtLeast(chances, points);

function ofCues(cues: number, rules: EarningRules, recorder: Recorder, rho: number): Distribution {
  const marks = ofMarks(cues, rules, recorder, rho);
  const { checked, matching, answers } = recorder;
  if (rules.match === 0 || checked === 0) return marks;
  const matches = betaBinomial(cues, checked * matching * answers, 0);
  return sumOf(marks, stretched(matches, rules.match));
}

function ofMarks(cues: number, rules: EarningRules, recorder: Recorder, rho: number): Distribution {
  const { onTask, answers } = recorder;
  if (rules.goal === 0 && rules.mark === 0) {
    return stretched(betaBinomial(cues, answers * onTask, rho), rules.on);
  }
  if (rules.goal === 0 && rules.on === 0) {
    return stretched(betaBinomial(cues, answers, rho), rules.mark);
  }
  const points = new Float64Array(cues * (rules.mark + rules.on) + rules.goal + 1);
  for (const [recorded, chance] of betaBinomial(cues, answers, rho).entries()) {
    // Of the recorded marks alone the precision is the answers' share of the whole.
    const within = answers === 0 ? 0 : rho / (rho + answers * (1 - rho));
    for (const [on, each] of betaBinomial(recorded, onTask, within).entries()) {
      const reached = recorded >= fewestGoalMarks && on / recorded >= rules.goalShare - 1e-9;
      const value = rules.mark * recorded + rules.on * on + (reached ? rules.goal : 0);
      points[value] = (points[value] ?? 0) + chance * each;
    }
  }
  return points;
}

/** The chances of `times` the number. */
function stretched(chances: Distribution, times: number): Distribution {
  if (times === 0) return always(0);
  const points = new Float64Array((chances.length - 1) * times + 1);
  for (const [value, chance] of chances.entries()) points[value * times] = chance;
  return points;
}
