import {
  contrastWorth,
  dot,
  type SerialFit,
  serialFit,
  serialForm,
} from "../../statistics/serial-least-squares.ts";
import { markVariance, type RatePoint } from "./points.ts";

/** A least-squares line through the rates of one record. */
export interface SlopeFit {
  /** Rise of the rate a day. */
  readonly slope: number;
  readonly standardError: number;
  /** Degrees of freedom for Student's t. */
  readonly degrees: number;
  /** Mean day and mean rate, weighted by marks: the line passes there. */
  readonly middle: { readonly day: number; readonly rate: number };
  /** Sum of marks times squared days from the middle day: what the slope rests on. */
  readonly leverage: number;
  readonly fit: SerialFit;
}

/**
 * Line through the rates of at least three sessions on at least two days, weighted by their marks, with the
 * variance that alike neighbours leave it, never below that of independent marks. Null where there are fewer.
 *
 * Source: see `serialFit`. Example: fitSlope([]) // null
 */
export function fitSlope(points: readonly RatePoint[]): SlopeFit | null {
  if (points.length < 3) return null;
  const variance = markVariance(points);
  let marks = 0;
  let days = 0;
  let on = 0;
  for (const point of points) {
    marks += point.marks;
    days += point.marks * point.day;
    on += point.on;
  }
  const middle = { day: days / marks, rate: on / marks };
  const roots = Float64Array.from(points, (point) => Math.sqrt(point.marks / variance));
  const rises = Float64Array.from(
    points,
    (point, at) => (roots[at] ?? 0) * (point.day - middle.day),
  );
  const scaled = Float64Array.from(
    points,
    (point, at) => (roots[at] ?? 0) * (point.on / point.marks - middle.rate),
  );
  const squares = dot(rises, rises);
  if (squares === 0) return null;
  const level = unit(roots, dot(roots, roots));
  const rise = unit(rises, squares);
  const height = dot(rise, scaled);
  // The level is taken off already: values are counted from the middle rate.
  const residuals = scaled.map((value, at) => value - height * (rise[at] ?? 0));
  const fit = serialFit(residuals, (r) => serialForm(level, r) + serialForm(rise, r), 2);
  const worth = contrastWorth(rise, fit);
  return {
    slope: height / Math.sqrt(squares),
    standardError: Math.sqrt((Math.max(1, fit.phi) * worth.form) / squares),
    degrees: worth.degrees,
    middle,
    leverage: squares * variance,
    fit,
  };
}

const unit = (column: Float64Array, squares: number): Float64Array =>
  column.map((value) => value / Math.sqrt(squares));
