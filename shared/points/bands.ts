import { chanceOf, type Income } from "./income.ts";
import { medianOf } from "./median.ts";

/** Prices proposed for cheap, middle and dear privileges, in points. */
export interface Bands {
  readonly low: number;
  readonly middle: number;
  /** Null where even saving for a school week reaches no further than the middle price. */
  readonly high: number | null;
  /** The least chance of any student to afford the low price at each exchange, 0 to 1. */
  readonly promise: number;
  /** Whether every student can afford something at nine exchanges in ten. */
  readonly promiseKept: boolean;
}

/** One student's income between two exchanges, of a day and of two days. */
export interface StudentIncome {
  readonly between: Income;
  readonly day: Income;
  readonly twoDays: Income;
}

const promised = 0.9;

/**
 * Prices so that the weakest student can nearly always afford something, the middle takes up to two days
 * of saving, and nobody waits for the dear things longer than a school week.
 *
 * X is a student's points between two exchanges, D those of a day, E exchanges a day: low is the smallest
 * 10th percentile of X, at least 1; middle the smallest of (median of two days - 2 low); high three mean
 * days of the median student, at most five of the smallest (median of D - E low). Common practice, no
 * source for the factors.
 *
 * Example: bandsOf([income], 1) // { low: 17, middle: 18, high: 25, promise: 0.91, promiseKept: true }
 *
 * @throws RangeError without a student.
 */
export function bandsOf(students: readonly StudentIncome[], exchangesADay: number): Bands {
  if (students.length === 0) throw new RangeError("students must be at least one; got none.");
  const least = (value: (student: StudentIncome) => number) => Math.min(...students.map(value));
  const low = Math.max(
    1,
    least(({ between }) => between.quantiles.q10),
  );
  const promise = least(({ between }) => chanceOf(between, low));
  const spare = Math.floor(least(({ twoDays }) => twoDays.quantiles.q50 - 2 * low));
  const middle = Math.max(low + 1, spare);
  const week = Math.floor(5 * least(({ day }) => day.quantiles.q50 - exchangesADay * low));
  const threeDays = Math.round(3 * medianOf(students.map(({ day }) => day.mean)));
  const high = Math.min(threeDays, week);
  return {
    low,
    middle,
    high: high > middle ? high : null,
    promise,
    promiseKept: promise >= promised,
  };
}
