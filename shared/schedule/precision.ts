import { criticalZ } from "../statistics/normal.ts";
import { meanInflation } from "../statistics/planning/mean-inflation.ts";
import { tPower } from "../statistics/planning/t-power.ts";
import { wilsonInterval } from "../statistics/wilson.ts";
import { expectedCues, type KeptCountSettings, keptCounts } from "./kept-counts.ts";
import { planLaw } from "./plan-law.ts";

/** How long a student stays at work and away from it at a time, on average, in seconds. */
export interface Bouts {
  readonly onSeconds: number;
  readonly offSeconds: number;
}

/**
 * All functions here picture a student who switches at random between working and not working (a
 * two-state Markov process in balance): mean bouts on and off, true rate p = on / (on + off), switching
 * rate r = 1/on + 1/off, autocovariance p (1 - p) e^(-r lag). Real students vary from day to day besides;
 * the planner allows for it, a single session's precision is that day's alone.
 *
 * Example: trueRate({ onSeconds: 90, offSeconds: 30 }) // 0.75
 */
export function trueRate({ onSeconds, offSeconds }: Bouts): number {
  return onSeconds / (onSeconds + offSeconds);
}

/**
 * r, per second: how fast behaviour forgets what it was.
 *
 * Example: switchingRate({ onSeconds: 100, offSeconds: 50 }) // 0.03
 */
export function switchingRate({ onSeconds, offSeconds }: Bouts): number {
  return 1 / onSeconds + 1 / offSeconds;
}

/**
 * Variance of the share of marks on task over `cueCount` cues whose intervals are independent draws from
 * a law. `likeness` is the correlation of behaviour at two neighbouring cues, the law's
 * `expectedDecay(r)`, called f here: (p(1-p) / n) [(1+f)/(1-f) - 2 f (1 - f^n) / (n (1-f)^2)].
 *
 * For exponential intervals with shortest gap g, f = e^(-rg) / (1 + r (m - g)). The balanced law deals
 * its intervals without replacement; taking them as independent errs little.
 *
 * Example: renewalVariance(0.5, 0, 10) // 0.025
 */
export function renewalVariance(p: number, likeness: number, cueCount: number): number {
  const rest = 1 - likeness;
  const inflation =
    (1 + likeness) / rest - (2 * likeness * (1 - likeness ** cueCount)) / (cueCount * rest * rest);
  return ((p * (1 - p)) / cueCount) * inflation;
}

/** A plan's cues, one student's bouts, and how much the student's days differ. */
export interface PrecisionSettings {
  readonly plan: KeptCountSettings;
  readonly bouts: Bouts;
  /** Standard deviation of the true rate from day to day, a share; `usualDaySpread` where nobody knows. */
  readonly daySpread?: number;
}

/** Days differ by about ten percentage points. Common practice, no source. */
export const usualDaySpread = 0.1;

/** What the planner plans with: the rule by which two phases are said to differ clearly. */
export const planningRule = {
  /** No fewer sessions a side: with three and three a change can at most be called probable. */
  fewestSessions: 4,
  /** What the published standard for single-case designs asks for (What Works Clearinghouse, from memory). */
  standardSessions: 5,
  /** Correlation of neighbouring sessions, as in `serialPrior`. */
  serialCorrelation: 0.2,
  power: 0.8,
} as const;

/** What one session of this plan can tell about this student. */
export interface SessionPrecision {
  readonly trueRate: number;
  /** Cues of a session on average, not rounded. */
  readonly expectedCues: number;
  /** Correlation of behaviour at two neighbouring cues, 0 to 1. */
  readonly likeness: number;
  /** Standard deviation of one session's on-task share around that day's true rate. */
  readonly standardDeviation: number;
  /** Where 95 sessions in 100 will fall, cut to 0 to 1 (normal approximation). */
  readonly lower: number;
  readonly upper: number;
}

/**
 * The on-task share to expect from one session.
 *
 * @throws RangeError for bouts or plans that cannot be.
 */
export function sessionPrecision({ plan, bouts }: PrecisionSettings): SessionPrecision {
  requireBouts(bouts);
  const rate = trueRate(bouts);
  const variance = shareVariance(plan, bouts);
  const reach = criticalZ(0.95) * Math.sqrt(variance);
  return {
    trueRate: rate,
    expectedCues: expectedCues(plan),
    likeness: planLaw(plan).expectedDecay(switchingRate(bouts)),
    standardDeviation: Math.sqrt(variance),
    lower: Math.max(0, rate - reach),
    upper: Math.min(1, rate + reach),
  };
}

/** One point of the planner's chart. */
export interface ChangeTold {
  /** Sessions before the change, and as many after it. */
  readonly sessions: number;
  /** The smallest change told from noise at 80 % power, as a share (0.1 is 10 points). */
  readonly change: number;
}

/**
 * How many sessions before a change, and as many after it, until a rise or fall of `change` (0.1 is 10
 * points) is said to be clear with 80 % power: the least whole number, four or more, at which Student's t
 * with (2 s - 2) / f degrees of freedom reaches it, for a standard error of sqrt(f (V1 + V2) / s). V1 and V2
 * are the variances of one session's share before and after, day-to-day spread included, f the inflation
 * of a mean of s neighbours with correlation .2. Five sessions a side are what the published standard asks.
 *
 * The changed student keeps the length of an on-and-off cycle and shifts time between the two. The change
 * is taken upward, or downward when that would reach 100 %.
 *
 * Sources: variances from `renewalVariance`, averaged over the numbers of cues a session can have; power
 * from `tPower`; the rule that is planned for is `phaseStatement`'s, by simulation in
 * tests/bench/calibration/planner.ts.
 * Example: sessionsToTellChange({ plan: firstPlan, bouts: { onSeconds: 90, offSeconds: 60 } }, 0.3) // 10
 *
 * @throws RangeError unless 0 < change, the changed rate stays inside 0 to 1 and the spread is 0 or more.
 */
export function sessionsToTellChange(settings: PrecisionSettings, change: number): number {
  const variances = variancesAround(settings, change);
  const isTold = (sessions: number) => powerOf(variances, change, sessions) >= planningRule.power;
  let high: number = planningRule.fewestSessions;
  if (isTold(high)) return high;
  while (!isTold(high) && high < mostSessions) high *= 2;
  let low = Math.floor(high / 2);
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (isTold(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** Beyond this nobody plans. */
const mostSessions = 1 << 20;

/** Below so many answered cues weeks are read, not sessions. Common practice, no source. */
export const fewestForOneSession = 10;

/**
 * How close one session of so many answered cues comes to its own true rate: half the width of Wilson's 95 %
 * interval at a rate of 70 %, a share. It is that session's interval alone; other days differ besides.
 *
 * Example: sessionReach(10) // 0.25; 20: 0.19; 40: 0.14
 *
 * @throws RangeError when there is no cue.
 */
export function sessionReach(cues: number): number {
  const { lower, upper } = wilsonInterval(0.7 * cues, cues);
  return (upper - lower) / 2;
}

const mostChartPoints = 60;

/**
 * The chart of the planner: the smallest change told after 4, 5, ... `mostSessions` sessions a side. Of
 * more than 60 sessions some are left out, the first and the last never, and least often where the curve is
 * steep: it falls as one over the root of sessions, so the roots are evenly spaced.
 */
export function changesTold(settings: PrecisionSettings, mostSessions: number): ChangeTold[] {
  const first = planningRule.fewestSessions;
  const count = Math.min(mostChartPoints, mostSessions - first + 1);
  const step = count <= 1 ? 0 : (Math.sqrt(mostSessions) - Math.sqrt(first)) / (count - 1);
  const drawn = Array.from({ length: Math.max(1, count) }, (_, index) =>
    mostSessions - first < mostChartPoints
      ? index + first
      : Math.round((Math.sqrt(first) + index * step) ** 2),
  );
  return [...new Set(drawn)].map((sessions) => ({
    sessions,
    change: smallestChange(settings, sessions),
  }));
}

/** Variances of one session's share before and after the change, added. */
function variancesAround(
  { plan, bouts, daySpread = usualDaySpread }: PrecisionSettings,
  change: number,
) {
  requireBouts(bouts);
  if (!(daySpread >= 0)) throw new RangeError(`daySpread must be 0 or more; got ${daySpread}.`);
  const changed = changedBouts(bouts, change);
  return shareVariance(plan, bouts) + shareVariance(plan, changed) + 2 * daySpread ** 2;
}

/** Probability that the rule calls the change clear after so many sessions a side. */
function powerOf(variances: number, change: number, sessions: number): number {
  const inflation = meanInflation(sessions, planningRule.serialCorrelation);
  const error = Math.sqrt((inflation * variances) / sessions);
  return tPower(change / error, Math.max(1, (2 * sessions - 2) / inflation));
}

/** Bisection: a larger change needs fewer sessions. When even the largest needs more, that largest. */
function smallestChange(settings: PrecisionSettings, sessions: number): number {
  const rate = trueRate(settings.bouts);
  let low = 0;
  let high = Math.max(rate, 1 - rate) * (1 - 1e-9);
  for (let step = 0; step < 50; step++) {
    const middle = (low + high) / 2;
    const variances = variancesAround(settings, middle);
    if (powerOf(variances, middle, sessions) < planningRule.power) low = middle;
    else high = middle;
  }
  return high;
}

function changedBouts(bouts: Bouts, change: number): Bouts {
  const rate = trueRate(bouts);
  const changed = rate + change < 1 ? rate + change : rate - change;
  if (!(change > 0 && changed > 0)) {
    throw new RangeError(
      `change must be above 0 and leave the rate of ${rate} within 0 to 1; got ${change}.`,
    );
  }
  const cycle = bouts.onSeconds + bouts.offSeconds;
  return { onSeconds: changed * cycle, offSeconds: (1 - changed) * cycle };
}

/**
 * Variance of one session's share of marks on task: `renewalVariance` for every number of cues a session
 * can have, weighted with its chance. A session without a cue has no share and is left out.
 *
 * Taking one number of cues for all would promise too much: few cues lose more than many gain. That a
 * session with many cues had short intervals is not counted in.
 */
function shareVariance(plan: KeptCountSettings, bouts: Bouts): number {
  const likeness = planLaw(plan).expectedDecay(switchingRate(bouts));
  const marked = keptCounts(plan).filter(({ cues }) => cues > 0);
  const chances = marked.reduce((sum, { chance }) => sum + chance, 0);
  if (chances === 0) throw new RangeError("plan must have sessions with a cue; got none.");
  const weighted = marked.map(
    ({ cues, chance }) => chance * renewalVariance(trueRate(bouts), likeness, cues),
  );
  return weighted.reduce((sum, variance) => sum + variance, 0) / chances;
}

function requireBouts({ onSeconds, offSeconds }: Bouts): void {
  const usable = [onSeconds, offSeconds].every((bout) => Number.isFinite(bout) && bout > 0);
  if (!usable)
    throw new RangeError(
      `onSeconds and offSeconds must be above 0; got ${onSeconds} and ${offSeconds}.`,
    );
}
