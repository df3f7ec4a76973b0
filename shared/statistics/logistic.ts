import { criticalZ } from "./normal.ts";
import { type Interval, notEnough, type Result } from "./result.ts";
import { criticalT } from "./student-t.ts";

/** Marks at one time. */
export interface Trial {
  readonly time: number;
  readonly on: number;
  readonly off: number;
}

export interface LogisticTrend {
  /** Log odds of on task at time 0, and their change per unit of time. */
  readonly intercept: number;
  readonly slope: number;
  /** Standard errors, with the dispersion when it is above 1. */
  readonly interceptError: number;
  readonly slopeError: number;
  /** Interval for `slope`. */
  readonly interval: Interval;
  /**
   * `quasi-binomial`: maximum likelihood with estimated dispersion. `firth`: penalised, because time
   * separates on from off (or all marks are alike) and the likelihood has no maximum.
   */
  readonly method: "quasi-binomial" | "firth";
  /** Pearson's chi-square over its degrees of freedom as found; null for `firth`. */
  readonly dispersion: number | null;
  /** Of the fit, and of one rate for all times; on `degrees`, and one more. */
  readonly deviance: number;
  readonly nullDeviance: number;
  readonly degrees: number;
}

/**
 * Logistic regression of grouped marks on time, with a quasi-binomial dispersion never taken below 1
 * and a t interval, or Firth's penalised fit with a profile penalised-likelihood interval when there
 * is separation. Trials without marks are left out. Always finite.
 *
 * Sources: McCullagh P, Nelder JA (1989), Generalized Linear Models, 2nd ed., chapter 4; Firth D
 * (1993), "Bias reduction of maximum likelihood estimates", Biometrika 80:27-38; Heinze G, Schemper
 * M (2002), "A solution to the problem of separation in logistic regression", Statistics in Medicine
 * 21:2409-2419.
 *
 * Example: logisticTrend([{ time: 0, on: 5, off: 5 }, { time: 7, on: 6, off: 4 }, { time: 14, on: 8, off: 2 }]).kind // "enough"
 */
export function logisticTrend(trials: readonly Trial[], confidence = 0.95): Result<LogisticTrend> {
  const used = trials.filter((trial) => trial.on + trial.off > 0);
  if (used.length < 3) return notEnough("few-sessions", used.length, 3);
  const times = used.map((trial) => trial.time);
  const [first, last] = extremes(times);
  const range = last - first;
  if (range === 0) return notEnough("few-days", 1, 2);
  // Times from -1/2 to 1/2: the two coefficients then hardly depend on each other.
  const scaled = used.map((trial) => ({ ...trial, time: (trial.time - first) / range - 0.5 }));
  const fitted = separated(scaled) ? firth(scaled, confidence) : quasiBinomial(scaled, confidence);
  const shift = first / range + 0.5;
  const { i00, i01, i11 } = fitted.information;
  const det = i00 * i11 - i01 * i01;
  // Variance of the intercept at time 0, by the delta rule for a - b * shift.
  const interceptVariance = (i11 + 2 * shift * i01 + shift * shift * i00) / det;
  return {
    kind: "enough",
    intercept: fitted.a - fitted.b * shift,
    slope: fitted.b / range,
    interceptError: Math.sqrt(interceptVariance * fitted.spread),
    slopeError: Math.sqrt((i00 / det) * fitted.spread) / range,
    interval: { lower: fitted.interval.lower / range, upper: fitted.interval.upper / range },
    method: fitted.method,
    dispersion: fitted.dispersion,
    deviance: deviance(scaled, fitted.a, fitted.b),
    nullDeviance: nullDeviance(scaled),
    degrees: used.length - 2,
  };
}

/** The least and the greatest, without spreading thousands of arguments. */
const extremes = (values: readonly number[]): [number, number] => [
  values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY),
  values.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY),
];

/** Whether a moment in time parts all "on" from all "off" marks, or one kind is absent. */
function separated(trials: readonly Trial[]): boolean {
  const [firstOn, lastOn] = extremes(trials.filter((t) => t.on > 0).map((t) => t.time));
  const [firstOff, lastOff] = extremes(trials.filter((t) => t.off > 0).map((t) => t.time));
  return lastOff <= firstOn || lastOn <= firstOff;
}

interface Information {
  readonly i00: number;
  readonly i01: number;
  readonly i11: number;
}
interface Point {
  readonly a: number;
  readonly b: number;
}

const chance = (logOdds: number): number => 1 / (1 + Math.exp(-logOdds));

/** log(1 + e^x) without overflow. */
const softplus = (x: number): number => Math.max(x, 0) + Math.log1p(Math.exp(-Math.abs(x)));

function informationAt(trials: readonly Trial[], { a, b }: Point): Information {
  let i00 = 0;
  let i01 = 0;
  let i11 = 0;
  for (const { time, on, off } of trials) {
    const p = chance(a + b * time);
    const weight = (on + off) * p * (1 - p);
    i00 += weight;
    i01 += weight * time;
    i11 += weight * time * time;
  }
  return { i00, i01, i11 };
}

const determinant = ({ i00, i01, i11 }: Information): number => i00 * i11 - i01 * i01;

function logLikelihood(trials: readonly Trial[], { a, b }: Point, penalised: boolean): number {
  let sum = 0;
  for (const { time, on, off } of trials) {
    const logOdds = a + b * time;
    // softplus(-x) = softplus(x) - x
    const cost = softplus(logOdds);
    sum -= on * (cost - logOdds) + off * cost;
  }
  if (!penalised) return sum;
  const det = determinant(informationAt(trials, { a, b }));
  return det > 0 ? sum + Math.log(det) / 2 : Number.NEGATIVE_INFINITY;
}

/** Score of both coefficients; Firth's modified one adds half a mark of each kind per leverage. */
function scoreAt(
  trials: readonly Trial[],
  { a, b }: Point,
  { i00, i01, i11 }: Information,
  penalised: boolean,
) {
  const det = i00 * i11 - i01 * i01;
  let u0 = 0;
  let u1 = 0;
  for (const { time, on, off } of trials) {
    const p = chance(a + b * time);
    let residual = on - (on + off) * p;
    if (penalised) {
      const leverage =
        ((on + off) * p * (1 - p) * (i11 - 2 * i01 * time + i00 * time * time)) / det;
      residual += leverage * (0.5 - p);
    }
    u0 += residual;
    u1 += residual * time;
  }
  return { u0, u1 };
}

/** Newton's steps, halved while they do not climb. With `fixed` only the intercept moves. */
function climb(trials: readonly Trial[], start: Point, penalised: boolean, fixed = false): Point {
  let at = start;
  let height = logLikelihood(trials, at, penalised);
  for (let step = 0; step < 100; step += 1) {
    const information = informationAt(trials, at);
    const { u0, u1 } = scoreAt(trials, at, information, penalised);
    const det = determinant(information);
    const da = fixed ? u0 / information.i00 : (information.i11 * u0 - information.i01 * u1) / det;
    const db = fixed ? 0 : (information.i00 * u1 - information.i01 * u0) / det;
    if (!Number.isFinite(da) || !Number.isFinite(db)) return at;
    // Newton's error squares with each step: after one this small nothing is left but rounding.
    const size = Math.abs(da) + Math.abs(db);
    if (size < 1e-8 * (1 + Math.abs(at.a) + Math.abs(at.b))) return { a: at.a + da, b: at.b + db };
    let share = Math.min(1, 5 / Math.max(Math.abs(da), Math.abs(db), 1e-300));
    let next = { a: at.a + share * da, b: at.b + share * db };
    let nextHeight = logLikelihood(trials, next, penalised);
    while (nextHeight < height && share > 1e-10) {
      share /= 2;
      next = { a: at.a + share * da, b: at.b + share * db };
      nextHeight = logLikelihood(trials, next, penalised);
    }
    if (nextHeight < height) return at;
    at = next;
    height = nextHeight;
  }
  return at;
}

function startingPoint(trials: readonly Trial[]): Point {
  let on = 0.5;
  let off = 0.5;
  for (const trial of trials) {
    on += trial.on;
    off += trial.off;
  }
  return { a: Math.log(on / off), b: 0 };
}

function quasiBinomial(trials: readonly Trial[], confidence: number) {
  const at = climb(trials, startingPoint(trials), false);
  const information = informationAt(trials, at);
  const degrees = trials.length - 2;
  const dispersion = pearson(trials, at) / degrees;
  const spread = Math.max(1, dispersion);
  const error = Math.sqrt((information.i00 / determinant(information)) * spread);
  const reach = criticalT(confidence, degrees) * error;
  return {
    ...at,
    information,
    spread,
    dispersion,
    interval: { lower: at.b - reach, upper: at.b + reach },
    method: "quasi-binomial" as const,
  };
}

function firth(trials: readonly Trial[], confidence: number) {
  const at = climb(trials, startingPoint(trials), true);
  return {
    ...at,
    information: informationAt(trials, at),
    spread: 1,
    dispersion: null,
    interval: profileInterval(trials, at, confidence),
    method: "firth" as const,
  };
}

/** Slopes at which the penalised likelihood, with the best intercept for each, is not yet too low. */
function profileInterval(trials: readonly Trial[], best: Point, confidence: number): Interval {
  const floor = logLikelihood(trials, best, true) - criticalZ(confidence) ** 2 / 2;
  const end = (side: 1 | -1): number => {
    let inside = best;
    let stride = 1;
    let outside = climb(trials, { a: inside.a, b: inside.b + side * stride }, true, true);
    // The penalty falls without bound, so this ends; the limit only guards against rounding.
    while (logLikelihood(trials, outside, true) > floor && stride < 1e6) {
      inside = outside;
      stride *= 2;
      outside = climb(trials, { a: inside.a, b: inside.b + side * stride }, true, true);
    }
    while (Math.abs(outside.b - inside.b) > 1e-10 * (1 + Math.abs(outside.b))) {
      const b = (inside.b + outside.b) / 2;
      if (b === inside.b || b === outside.b) break;
      const middle = climb(trials, { a: inside.a, b }, true, true);
      if (logLikelihood(trials, middle, true) > floor) inside = middle;
      else outside = middle;
    }
    return inside.b;
  };
  return { lower: end(-1), upper: end(1) };
}

function pearson(trials: readonly Trial[], { a, b }: Point): number {
  let sum = 0;
  for (const { time, on, off } of trials) {
    const p = chance(a + b * time);
    const variance = (on + off) * p * (1 - p);
    // A chance rounded to 0 or 1 that fits its marks adds nothing.
    if (variance > 0) sum += (on - (on + off) * p) ** 2 / variance;
  }
  return sum;
}

function deviance(trials: readonly Trial[], a: number, b: number): number {
  let sum = 0;
  for (const { time, on, off } of trials) {
    const logOdds = a + b * time;
    const n = on + off;
    if (on > 0) sum += on * (Math.log(on / n) + softplus(-logOdds));
    if (off > 0) sum += off * (Math.log(off / n) + softplus(logOdds));
  }
  return Math.max(0, 2 * sum);
}

/** Deviance of the rate of all marks together; 0 when they are all alike. */
function nullDeviance(trials: readonly Trial[]): number {
  const on = trials.reduce((sum, trial) => sum + trial.on, 0);
  const off = trials.reduce((sum, trial) => sum + trial.off, 0);
  return on === 0 || off === 0 ? 0 : deviance(trials, Math.log(on / off), 0);
}
