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
 * rate r = 1/on + 1/off, autocovariance p (1 - p) e^(-r lag). Real students vary more from day to day than
 * this, so the answers are what the cues alone allow, at best.
 */
export function trueRate({ onSeconds, offSeconds }: Bouts): number {
  return onSeconds / (onSeconds + offSeconds);
}

/** r, per second: how fast behaviour forgets what it was. */
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
 */
export function renewalVariance(p: number, likeness: number, cueCount: number): number {
  const rest = 1 - likeness;
  const inflation =
    (1 + likeness) / rest - (2 * likeness * (1 - likeness ** cueCount)) / (cueCount * rest * rest);
  return ((p * (1 - p)) / cueCount) * inflation;
}

/** A plan's cues and one student's bouts. */
export interface PrecisionSettings {
  readonly plan: KeptCountSettings;
  readonly bouts: Bouts;
}

/** What one session of this plan can tell about this student. */
export interface SessionPrecision {
  readonly trueRate: number;
  /** Cues of a session on average, not rounded. */
  readonly expectedCues: number;
  /** Correlation of behaviour at two neighbouring cues, 0 to 1. */
  readonly likeness: number;
  /** Standard deviation of one session's on-task share, over the sessions that have a cue. */
  readonly standardDeviation: number;
  /** Where 95 sessions in 100 will fall, cut to 0 to 1 (normal approximation). */
  readonly lower: number;
  readonly upper: number;
}

// Quantiles of the normal distribution, to the last digit: 97.5 % and 80 %.
const normal975 = 1.959963984540054;
const normal80 = 0.8416212335729143;

/** The on-task share to expect from one session. Errors: RangeError for bouts or plans that cannot be. */
export function sessionPrecision({ plan, bouts }: PrecisionSettings): SessionPrecision {
  requireBouts(bouts);
  const rate = trueRate(bouts);
  const variance = shareVariance(plan, bouts);
  const reach = normal975 * Math.sqrt(variance);
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
 * points) is told from noise with 80 % power at the two-sided 5 % level:
 * the least whole s >= (1.96 + 0.84)^2 (V1 + V2) / change^2, with V1 and V2 the variances of one session's
 * share before and after.
 *
 * The changed student keeps the length of an on-and-off cycle and shifts time between the two. The change
 * is taken upward, or downward when that would reach 100 %. Differences in a student's real rate from day
 * to day are not included, so this is the least to plan for.
 *
 * Source: the usual two-sample formula for means with known variances; variances from `renewalVariance`,
 * averaged over the numbers of cues a session can have.
 * Errors: RangeError unless 0 < change and the changed rate stays inside 0 to 1.
 */
export function sessionsToTellChange(settings: PrecisionSettings, change: number): number {
  return Math.max(1, Math.ceil(neededSessions(settings, change) - 1e-9));
}

const mostChartPoints = 60;

/**
 * The chart of the planner: the smallest change told after 1, 2, ... `mostSessions` sessions a side. Of
 * more than 60 sessions some are left out, the first and the last never, and least often where the curve is
 * steep: it falls as one over the root of sessions, so the roots are evenly spaced.
 */
export function changesTold(settings: PrecisionSettings, mostSessions: number): ChangeTold[] {
  const points = Math.min(mostChartPoints, mostSessions);
  const step = points === 1 ? 0 : (Math.sqrt(mostSessions) - 1) / (points - 1);
  const drawn = Array.from({ length: points }, (_, index) =>
    mostSessions <= mostChartPoints ? index + 1 : Math.round((1 + index * step) ** 2),
  );
  return [...new Set(drawn)].map((sessions) => ({
    sessions,
    change: smallestChange(settings, sessions),
  }));
}

function neededSessions({ plan, bouts }: PrecisionSettings, change: number): number {
  requireBouts(bouts);
  const changed = changedBouts(bouts, change);
  const variances = shareVariance(plan, bouts) + shareVariance(plan, changed);
  return ((normal975 + normal80) ** 2 * variances) / change ** 2;
}

/** Bisection: a larger change needs fewer sessions. When even the largest needs more, that largest. */
function smallestChange(settings: PrecisionSettings, sessions: number): number {
  const rate = trueRate(settings.bouts);
  let low = 0;
  let high = Math.max(rate, 1 - rate) * (1 - 1e-9);
  for (let step = 0; step < 50; step++) {
    const middle = (low + high) / 2;
    if (neededSessions(settings, middle) > sessions) low = middle;
    else high = middle;
  }
  return high;
}

function changedBouts(bouts: Bouts, change: number): Bouts {
  const rate = trueRate(bouts);
  const changed = rate + change < 1 ? rate + change : rate - change;
  if (!(change > 0 && changed > 0)) {
    throw new RangeError(
      `A change of ${change} would take the on-task rate of ${rate} outside 0 to 1.`,
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
  if (chances === 0) throw new RangeError("No session of this plan has a cue.");
  const weighted = marked.map(
    ({ cues, chance }) => chance * renewalVariance(trueRate(bouts), likeness, cues),
  );
  return weighted.reduce((sum, variance) => sum + variance, 0) / chances;
}

function requireBouts({ onSeconds, offSeconds }: Bouts): void {
  const usable = [onSeconds, offSeconds].every((bout) => Number.isFinite(bout) && bout > 0);
  if (!usable) throw new RangeError("Both mean bouts must be longer than zero seconds.");
}
