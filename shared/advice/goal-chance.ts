import { designEffect } from "../analysis/dispersion.ts";
import { marked } from "../analysis/rate.ts";
import type { Counts } from "../record/session-count.ts";
import { normalCdf } from "../statistics/normal.ts";
import { meanInflation } from "../statistics/planning/mean-inflation.ts";

/** How the sessions that decide are chosen and how sure they make. */
export const chanceRule = {
  /** The newest so many sessions, or more ... Common practice, no source. */
  fewestSessions: 3,
  /** ... until they hold so many answered cues. Our own choice, held by simulation. */
  fewestMarks: 30,
  /** A session counts when at least this share of its cues has a mark. Common practice, no source. */
  fewestMarked: 0.5,
  /**
   * Correlation of neighbouring sessions. Shadish & Sullivan (2011) Behav Res Methods 43:971-980 found about
   * .2 on average in single-case series (from memory; observers' series, not self-records).
   */
  serialCorrelation: 0.2,
  /** Days differ by at least this standard deviation, however many students a rate rests on. Our choice. */
  daySpread: 0.05,
  /** How many sessions' worth it is taken for granted that marks of a session are no more alike. */
  effectWorth: 5,
  /** A higher goal is judged as this one: of a rate of 100 % one can never be sure. */
  highestGoal: 0.95,
} as const;

/** The sessions that decide, oldest first, and what they say. */
export interface Judged {
  readonly rates: readonly number[];
  /** Answered cues of these sessions together. */
  readonly marks: number;
  /** On-task rate of these sessions together, 0 to 1; null without a mark. */
  readonly rate: number | null;
  /** Probability that the true rate is at or above the goal, 0 to 1; null without a mark. */
  readonly chance: number | null;
}

/**
 * The newest sessions that decide, and the probability that the student's rate is at or above the goal.
 *
 * Taken are the newest three sessions and as many before them as it takes to hold 30 answered cues; a
 * session with marks at fewer than half of its cues is passed over. With rate p of n marks in k sessions
 * the probability is that of a normal score (p - g) / sqrt(f (g (1 - g) / n + d^2 / k)): g the goal, d the
 * least spread of days, f the inflation of a mean of k neighbours that are alike (`meanInflation`). Where the
 * sessions given scatter more than independent marks, n is divided by their design effect, which is drawn
 * toward 1 as if five more sessions had said so.
 *
 * `sessions` are those held, oldest first. Held by simulation: tests/bench/calibration/advice.ts.
 * Example: judge([{ on: 9, off: 1, missing: 0 }, ...two more alike], 0.8) // rate 0.9, chance 0.87
 *
 * @throws RangeError unless the goal is from 0 to 1.
 */
export function judge(sessions: readonly Counts[], goal: number): Judged {
  if (!(goal >= 0 && goal <= 1)) throw new RangeError(`goal must be from 0 to 1; got ${goal}.`);
  const judged = newestThatDecide(sessions);
  const rates = judged.map(({ on, off }) => on / (on + off));
  const marks = judged.reduce((sum, counts) => sum + marked(counts), 0);
  if (marks === 0) return { rates, marks, rate: null, chance: null };
  const rate = judged.reduce((sum, { on }) => sum + on, 0) / marks;
  const independent = marks / shrunkEffect(sessions);
  return { rates, marks, rate, chance: chanceAtGoal(rate, independent, judged.length, goal) };
}

function chanceAtGoal(rate: number, marks: number, sessions: number, asked: number): number {
  const { serialCorrelation, daySpread, highestGoal } = chanceRule;
  const goal = Math.min(highestGoal, Math.max(1 - highestGoal, asked));
  const variance =
    meanInflation(sessions, serialCorrelation) *
    ((goal * (1 - goal)) / marks + daySpread ** 2 / sessions);
  return normalCdf((rate - goal) / Math.sqrt(variance));
}

/** How much more sessions here scatter than independent marks would, drawn toward not at all. */
function shrunkEffect(sessions: readonly Counts[]): number {
  const { designEffect: effect, degrees } = designEffect([sessions]);
  return (degrees * effect + chanceRule.effectWorth) / (degrees + chanceRule.effectWorth);
}

function newestThatDecide(sessions: readonly Counts[]): Counts[] {
  const judged: Counts[] = [];
  let marks = 0;
  for (const counts of sessions.toReversed()) {
    if (judged.length >= chanceRule.fewestSessions && marks >= chanceRule.fewestMarks) break;
    if (!hasEnoughMarks(counts)) continue;
    judged.unshift(counts);
    marks += marked(counts);
  }
  return judged;
}

/** Whether half of a session's cues or more have a mark. */
export function hasEnoughMarks(counts: Counts): boolean {
  const marks = marked(counts);
  return marks > 0 && marks / (marks + counts.missing) >= chanceRule.fewestMarked;
}
