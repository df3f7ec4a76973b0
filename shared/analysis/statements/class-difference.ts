import type { Interval } from "../../statistics/result.ts";
import { type SerialFit, serialPrior } from "../../statistics/serial-least-squares.ts";
import { sumOfVariances, type Uncertainty } from "../../statistics/sum-of-variances.ts";
import type { RatePoint } from "./points.ts";
import { varianceOverStudents, weightedMean, widest } from "./pooled-variance.ts";
import { type StudentResidual, sharedVariance } from "./session-shock.ts";
import { type Stated, stateEstimate } from "./statement.ts";
import { fitStretches, type KnownErrors, type StretchRate } from "./stretches.ts";

/** One student's marks in the earlier and the later of two stretches. */
export interface StudentStretches {
  readonly earlier: readonly RatePoint[];
  readonly later: readonly RatePoint[];
  /** Scatter and likeness of neighbours where more sessions than these tell it. */
  readonly known?: KnownErrors;
}

/** A class's change between two stretches, each student measured against their own earlier rate. */
export interface ClassDifference extends Stated {
  /** Percentage points, as are the intervals. */
  readonly points: number;
  /** Students with marks in both stretches, in the later only, in the earlier only. */
  readonly students: number;
  readonly laterOnly: number;
  readonly earlierOnly: number;
  readonly standardError: number;
  readonly degrees: number;
}

/**
 * Mantel-Haenszel's risk difference over students with marks in both stretches, null when there is none.
 *
 * Its variance is the largest of three, as in `classTrend`.
 *
 * Source: Greenland S, Robins JM (1985), Biometrics 41:55-68, for the weights n1 n0 / (n1 + n0); the
 * variance is not theirs, which takes marks as independent.
 *
 * Example: classDifference([]) // null
 */
export function classDifference(students: readonly StudentStretches[]): ClassDifference | null {
  const both = students.filter(({ earlier, later }) => earlier.length > 0 && later.length > 0);
  if (both.length === 0) return null;
  const changes = both.map(changeOf);
  const weights = changes.map(({ weight }) => weight);
  const differences = changes.map(({ difference }) => difference);
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const change = weightedMean(weights, differences);
  const scatter = commonScatter(changes);
  const { variance, degrees } = widest([
    sumOfVariances(
      changes.map((each) => ({
        variance: (each.weight / total) ** 2 * each.variance * scatter,
        degrees: each.degrees,
      })),
    ),
    varianceOverStudents(weights, differences),
    sharedVariance(
      both.flatMap((student, at) => residualsOf(student, weights[at] ?? 0, total)),
      2,
    ),
  ]);
  const error = Math.sqrt(variance) * 100;
  const stated = stateEstimate(change * 100, error, degrees);
  return {
    points: change * 100 + 0,
    ...stated,
    interval: within(stated.interval),
    narrow: within(stated.narrow),
    students: both.length,
    laterOnly: students.filter(({ earlier, later }) => earlier.length === 0 && later.length > 0)
      .length,
    earlierOnly: students.filter(({ earlier, later }) => earlier.length > 0 && later.length === 0)
      .length,
    standardError: error,
    degrees,
  };
}

/** No rate changes by more than all. */
const within = ({ lower, upper }: Interval): Interval => ({
  lower: Math.max(-100, lower),
  upper: Math.min(100, upper),
});

interface StudentChange extends Uncertainty {
  readonly difference: number;
  readonly weight: number;
  readonly fit: SerialFit;
}

function changeOf({ earlier, later, known }: StudentStretches): StudentChange {
  const measurable = earlier.length + later.length > 2;
  const { fit, rates } = fitStretches(
    [earlier, later],
    known ?? (measurable ? undefined : { r: serialPrior.correlation, phi: 1, degrees: 1 }),
  );
  const [from, to] = rates as readonly [StretchRate, StretchRate]; // one for each of the two
  const plain = Math.max(1, fit.phi);
  return {
    difference: to.on / to.marks - from.on / from.marks,
    weight: (from.marks * to.marks) / (from.marks + to.marks),
    variance: (rateVariance(from) + rateVariance(to)) / plain,
    degrees: Math.min(from.degrees, to.degrees),
    fit,
  };
}

/** Variance of a rate, with two marks on and two off added (see `markVariance`). */
function rateVariance({ on, marks, designEffect }: StretchRate): number {
  const rate = (on + 2) / (marks + 4);
  return (designEffect * rate * (1 - rate)) / marks;
}

function commonScatter(changes: readonly StudentChange[]): number {
  const degrees = changes.reduce((sum, { fit }) => sum + fit.degrees, 0);
  return Math.max(1, changes.reduce((sum, { fit }) => sum + fit.phi * fit.degrees, 0) / degrees);
}

function residualsOf(
  { earlier, later }: StudentStretches,
  weight: number,
  total: number,
): StudentResidual[] {
  return [earlier, later].flatMap((stretch, place) => {
    const marks = stretch.reduce((sum, point) => sum + point.marks, 0);
    const rate = stretch.reduce((sum, point) => sum + point.on, 0) / marks;
    const lever = ((place === 0 ? -1 : 1) * weight) / (total * marks);
    return stretch.map((point) => ({
      startedAt: point.session.startedAt,
      marks: point.marks,
      left: point.on / point.marks - rate,
      lever,
    }));
  });
}
