import { dayText } from "../../calendar/calendar.ts";
import type { SessionCount } from "../../record/session-count.ts";
import { notEnough, type Result } from "../../statistics/result.ts";
import { fewestSessionsForTrend } from "../trend.ts";
import { type RatePoint, ratePoints } from "./points.ts";
import { fitSlope, type SlopeFit } from "./slope.ts";
import { type Stated, stateEstimate } from "./statement.ts";

/** The trend that leads every headline. */
export interface TrendStatement extends Stated {
  /** Percentage points per seven days, as are both intervals. */
  readonly pointsPerWeek: number;
  readonly sessions: number;
  /** First and last day with marks, and the line's rate on them; it may lie outside 0 to 1. */
  readonly from: { readonly day: string; readonly rate: number };
  readonly to: { readonly day: string; readonly rate: number };
  /** Days from the first session to the last. */
  readonly days: number;
  /** How alike neighbouring sessions were taken to be, 0 to 1. */
  readonly serial: number;
  readonly degrees: number;
}

/**
 * The trend of sessions of one source within one phase, from five sessions on at least two days.
 *
 * @param sessions oldest first
 *
 * Source: see `fitSlope`. Example: trendStatement([]) // not-enough, "few-sessions"
 */
export function trendStatement(sessions: readonly SessionCount[]): Result<TrendStatement> {
  return trendOfPoints(ratePoints(sessions));
}

/** The same of points; see `trendStatement`. */
export function trendOfPoints(points: readonly RatePoint[]): Result<TrendStatement> {
  if (points.length < fewestSessionsForTrend) {
    return notEnough("few-sessions", points.length, fewestSessionsForTrend);
  }
  const line = fitSlope(points);
  if (line === null) return notEnough("few-days", 1, 2);
  return { kind: "enough", ...stateLine(line, points) };
}

const daysInWeek = 7;
const pointsInWhole = 100;

function stateLine(line: SlopeFit, points: readonly RatePoint[]): TrendStatement {
  const perWeek = daysInWeek * pointsInWhole;
  const first = points[0]?.day ?? 0;
  const last = points.at(-1)?.day ?? 0;
  const on = (day: number) => ({
    day: dayText(day),
    rate: line.middle.rate + line.slope * (day - line.middle.day),
  });
  return {
    // Adding 0 turns -0 into 0.
    pointsPerWeek: line.slope * perWeek + 0,
    ...stateEstimate(line.slope * perWeek, line.standardError * perWeek, line.degrees),
    sessions: points.length,
    from: on(first),
    to: on(last),
    days: last - first,
    serial: line.fit.r,
    degrees: line.degrees,
  };
}
