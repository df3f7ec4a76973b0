import {
  type Computed,
  computed,
  type NotComputable,
  notComputable,
} from "../../statistics/computed.ts";
import { fractionalCriticalT } from "../../statistics/fractional-t.ts";
import { mean, sampleVariance } from "../../statistics/moments.ts";
import { criticalZ } from "../../statistics/normal.ts";
import type { Interval } from "../../statistics/result.ts";
import { sumOfVariances } from "../../statistics/sum-of-variances.ts";

export interface LogOddsRatio {
  readonly kind: "computed";
  /** Log odds of B's mean rate less those of A's; 0 is no difference, .69 doubles the odds. */
  readonly value: number;
  /** Withheld where no phase has any spread: an error of 0 would claim certainty. */
  readonly standardError: Computed | NotComputable<"no-spread">;
  readonly interval: Interval | null;
  /** Satterthwaite's degrees of freedom, and the interval by Student's t with them: for few points. */
  readonly degrees: number | null;
  readonly smallSampleInterval: Interval | null;
}

/**
 * Log odds ratio of the mean rates of two phases, with its standard error from the spread of sessions
 * within each phase: variance = sum over phases of s^2 / (n (p (1 - p))^2), p the mean, s the sample
 * standard deviation, n the number of points.
 *
 * Points are rates from 0 to 1. It takes points as independent. With few points the interval by the
 * normal distribution is too narrow (it covers 88 % at three points a phase, by simulation); the one by
 * Student's t with Satterthwaite's degrees of freedom is not. Sources: Pustejovsky JE (2015)
 * Psychological Methods 20:342-359; (2018) Journal of School Psychology 68:99-112.
 *
 * @throws RangeError when a point is outside 0 to 1.
 */
export function logOddsRatio(
  a: readonly number[],
  b: readonly number[],
  confidence = 0.95,
): LogOddsRatio | NotComputable<"fewer-than-two-points" | "all-on-or-all-off"> {
  if ([...a, ...b].some((rate) => !(rate >= 0 && rate <= 1)))
    throw new RangeError(`Rates must be from 0 to 1; got ${[...a, ...b].join(", ")}.`);
  if (a.length < 2 || b.length < 2) return notComputable("fewer-than-two-points");

  const phases = [a, b].map((rates) => ({ rates, p: mean(rates) }));
  if (phases.some(({ p }) => p <= 0 || p >= 1)) return notComputable("all-on-or-all-off");

  const value = logit(mean(b)) - logit(mean(a));
  const parts = phases.map(({ rates, p }) => ({
    variance: sampleVariance(rates) / (rates.length * (p * (1 - p)) ** 2),
    degrees: rates.length - 1,
  }));
  const { variance, degrees } = sumOfVariances(parts);
  if (variance === 0)
    return {
      kind: "computed",
      value,
      standardError: notComputable("no-spread"),
      interval: null,
      degrees: null,
      smallSampleInterval: null,
    };

  const error = Math.sqrt(variance);
  const reach = criticalZ(confidence) * error;
  const small = fractionalCriticalT(confidence, degrees) * error;
  return {
    kind: "computed",
    value,
    standardError: computed(error),
    interval: { lower: value - reach, upper: value + reach },
    degrees,
    smallSampleInterval: { lower: value - small, upper: value + small },
  };
}

const logit = (p: number): number => Math.log(p / (1 - p));
