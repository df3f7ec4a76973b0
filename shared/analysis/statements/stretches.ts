import { fractionalCriticalT } from "../../statistics/fractional-t.ts";
import { newcombeAt, type Share } from "../../statistics/newcombe.ts";
import type { Interval } from "../../statistics/result.ts";
import {
  contrastWorth,
  type SerialFit,
  serialFit,
  serialForm,
} from "../../statistics/serial-least-squares.ts";
import { wilsonAt } from "../../statistics/wilson.ts";
import { markVariance, type RatePoint } from "./points.ts";

/** One stretch of a record that is taken to have one rate: a phase, a week, or a week within a phase. */
export interface StretchRate {
  readonly on: number;
  readonly marks: number;
  readonly sessions: number;
  /** How many independent marks one mark is worth less: scatter between sessions times likeness of neighbours. */
  readonly designEffect: number;
  /** Degrees of freedom for Student's t. */
  readonly degrees: number;
}

/** How far sessions scatter and how alike neighbours are, where more sessions than these tell it. */
export type KnownErrors = Pick<SerialFit, "r"> & Partial<SerialFit>;

/**
 * Rates of stretches of one record, in order of time. One scatter and one likeness of neighbours for all,
 * measured within the stretches unless they are known.
 *
 * Source: see `serialFit`.
 *
 * @throws RangeError when a stretch is empty, or when none has a second session
 * and the scatter is not known.
 */
export function fitStretches(
  stretches: readonly (readonly RatePoint[])[],
  known?: KnownErrors,
): { readonly fit: SerialFit; readonly rates: readonly StretchRate[] } {
  const columns: Float64Array[] = [];
  const residuals: number[] = [];
  for (const stretch of stretches) {
    if (stretch.length === 0) throw new RangeError("stretch must have a session; got none.");
    const variance = markVariance(stretch);
    const { on, marks } = sumOf(stretch);
    columns.push(Float64Array.from(stretch, (point) => Math.sqrt(point.marks / marks)));
    for (const point of stretch) {
      residuals.push(Math.sqrt(point.marks / variance) * (point.on / point.marks - on / marks));
    }
  }
  const basisForm = (r: number) => columns.reduce((sum, column) => sum + serialForm(column, r), 0);
  const fit = isWhole(known) ? known : serialFit(residuals, basisForm, columns.length, known?.r);
  return {
    fit,
    rates: stretches.map((stretch, at) => {
      const { inflation, degrees } = contrastWorth(columns[at] ?? [], fit);
      return {
        ...sumOf(stretch),
        sessions: stretch.length,
        designEffect: Math.max(1, fit.phi) * inflation,
        degrees,
      };
    }),
  };
}

const isWhole = (known: KnownErrors | undefined): known is SerialFit =>
  known?.phi !== undefined && known.degrees !== undefined;

function sumOf(stretch: readonly RatePoint[]): { on: number; marks: number } {
  let on = 0;
  let marks = 0;
  for (const point of stretch) {
    on += point.on;
    marks += point.marks;
  }
  return { on, marks };
}

/** So many independent marks are they worth. */
const worthOf = ({ on, marks, designEffect }: StretchRate): Share => ({
  on: on / designEffect,
  total: marks / designEffect,
});

/**
 * Interval of a stretch's rate: Wilson's, on the independent marks that its own are worth, with Student's t.
 *
 * Example: stretchInterval({ on: 8, marks: 10, sessions: 1, designEffect: 1, degrees: 1e9 }, 0.95) // { lower: 0.49, upper: 0.94 }
 */
export function stretchInterval(rate: StretchRate, confidence: number): Interval {
  const { on, total } = worthOf(rate);
  return wilsonAt(on, total, fractionalCriticalT(confidence, rate.degrees));
}

/**
 * The later rate less the earlier, with Newcombe's interval on the independent marks that theirs are worth,
 * and Student's t. Never of zero width.
 */
export function stretchDifference(
  earlier: StretchRate,
  later: StretchRate,
  confidence: number,
): { readonly difference: number; readonly interval: Interval } {
  const degrees = Math.min(earlier.degrees, later.degrees);
  const { interval } = newcombeAt(
    worthOf(later),
    worthOf(earlier),
    fractionalCriticalT(confidence, degrees),
  );
  // From the counts themselves: dividing by the design effect first would leave a rounding error.
  return { difference: later.on / later.marks - earlier.on / earlier.marks, interval };
}
