import { dot } from "../serial-least-squares.ts";
import {
  type CaseSeries,
  columnsOf,
  determinant,
  inverse,
  inverseTimes,
  type Two,
} from "./case-algebra.ts";
import { leastNear } from "./nelder-mead.ts";

/** A mixed model of all cases: a level each, one effect of the program, alike neighbours within a case. */
export interface BetweenCaseFit {
  /** Level without the program over all cases, and the program's effect. */
  readonly level: number;
  readonly effect: number;
  readonly effectError: number;
  /** Variance between cases, variance within one, and correlation of neighbouring points. */
  readonly between: number;
  readonly within: number;
  readonly phi: number;
  readonly logLikelihood: number;
}

/**
 * Fits the model by restricted maximum likelihood. Points of a case are one step apart.
 *
 * Source: Pustejovsky JE, Hedges LV, Shadish WR (2014), Journal of Educational and Behavioral Statistics
 * 39:368-393, the model with a random level and a common effect (page numbers from memory).
 *
 * @throws RangeError with fewer than two cases, or when no point or every point lies under the program.
 */
export function fitBetweenCases(cases: readonly CaseSeries[]): BetweenCaseFit {
  const treated = cases.flatMap((each) => each.treated);
  if (cases.length < 2) throw new RangeError(`cases must be two or more; got ${cases.length}.`);
  if (!treated.includes(true) || !treated.includes(false)) {
    throw new RangeError("treated must be true at some points and false at others; got one only.");
  }
  const cost = (phi: number, ratio: number) => profile(cases, phi, ratio).cost;
  let start: readonly [number, number] = [0, 0];
  let least = Number.POSITIVE_INFINITY;
  for (const phi of [-0.5, -0.2, 0, 0.2, 0.4, 0.6, 0.8]) {
    for (const ratio of [0.01, 0.1, 0.5, 1, 2, 5, 20]) {
      const value = cost(phi, ratio);
      if (value < least) [least, start] = [value, [Math.atanh(phi), Math.log(ratio)]];
    }
  }
  const [x, y] = leastNear(([a, b]) => cost(Math.tanh(a), Math.exp(b)), start, 0.2);
  const phi = Math.tanh(x);
  // No difference between cases is the edge that the logarithm cannot reach.
  const ratio = cost(phi, 0) <= cost(phi, Math.exp(y)) ? 0 : Math.exp(y);
  const { within, information, estimates, degrees, cost: found } = profile(cases, phi, ratio);
  return {
    level: estimates[0],
    effect: estimates[1],
    effectError: Math.sqrt(within * inverse(information).d),
    between: ratio * within,
    within,
    phi,
    logLikelihood: -0.5 * (found + degrees * (1 + Math.log(2 * Math.PI))),
  };
}

/** Minus twice the restricted log likelihood, but for a constant, at a correlation and a ratio of variances. */
function profile(cases: readonly CaseSeries[], phi: number, ratio: number) {
  let [a, b, d] = [0, 0, 0];
  let [toLevel, toEffect, squares] = [0, 0, 0];
  let [points, logs] = [0, 0];
  for (const each of cases) {
    const [ones, program] = columnsOf(each);
    const weigh = weigher(each, phi, ratio);
    const ofOnes = weigh.times(ones);
    const ofProgram = weigh.times(program);
    a += dot(ones, ofOnes);
    b += dot(program, ofOnes);
    d += dot(program, ofProgram);
    toLevel += dot(each.values, ofOnes);
    toEffect += dot(each.values, ofProgram);
    squares += dot(each.values, weigh.times(each.values));
    points += each.values.length;
    logs += weigh.logDeterminant;
  }
  const information: Two = { a, b, d };
  const { a: p, b: q, d: r } = inverse(information);
  const estimates = [p * toLevel + q * toEffect, q * toLevel + r * toEffect] as const;
  const degrees = points - 2;
  const left = squares - estimates[0] * toLevel - estimates[1] * toEffect;
  const within = Math.max(left, 1e-12) / degrees;
  const cost = degrees * Math.log(within) + logs + Math.log(determinant(information));
  return { cost, within, information, estimates, degrees };
}

/** A case's inverse covariance over the variance within, as something to multiply by. */
function weigher({ values }: CaseSeries, phi: number, ratio: number) {
  const n = values.length;
  const ones = inverseTimes(new Float64Array(n).fill(1), phi);
  const sum = ones.reduce((total, each) => total + each, 0);
  const share = ratio / (1 + ratio * sum);
  return {
    logDeterminant: (n - 1) * Math.log(1 - phi * phi) + Math.log(1 + ratio * sum),
    times(vector: ArrayLike<number>): Float64Array {
      const found = inverseTimes(vector, phi);
      const off = share * dot(ones, vector);
      for (let at = 0; at < n; at += 1) found[at] = (found[at] ?? 0) - off * (ones[at] ?? 0);
      return found;
    },
  };
}
