import { dayNumber } from "../../calendar/calendar.ts";
import type { SessionCount } from "../../record/session-count.ts";
import { type Interval, notEnough, type Result } from "../../statistics/result.ts";
import { serialPrior } from "../../statistics/serial-least-squares.ts";
import { clearConfidence, probableConfidence } from "../evidence.ts";
import { fewestSessionsForTrend } from "../trend.ts";
import { type Week, weeksOf } from "../weeks.ts";
import { type RatePoint, ratePoints } from "./points.ts";
import { fitSlope } from "./slope.ts";
import { type Stated, stateChange } from "./statement.ts";
import {
  fitStretches,
  type KnownErrors,
  type StretchRate,
  stretchDifference,
  stretchInterval,
} from "./stretches.ts";

/** The newest week with marks less the newest before it. */
export interface WeekStatement extends Stated {
  /** Percentage points, as are both intervals. */
  readonly points: number;
  /** Their Mondays, and how many weeks lie between: 1 for neighbours. */
  readonly week: string;
  readonly before: string;
  readonly weeksApart: number;
  /** Sessions with marks of the newer week and of the older. */
  readonly sessions: readonly [week: number, before: number];
}

/** The rate of a week, or of the part of it that lies in one phase. */
export interface WeekRateStatement {
  readonly week: string;
  readonly rate: number;
  readonly interval: Interval;
  readonly sessions: number;
  readonly marks: number;
}

/** Fewer degrees of freedom within weeks than this: the scatter around the line tells more. */
const fewestWithinWeeks = 4;

type MarkedWeek = Week & { readonly points: readonly RatePoint[] };

/**
 * Weeks of one phase and one source: each week's rate, with the scatter measured within weeks and the
 * likeness of neighbours measured around the phase's line. Where hardly any week has a second session, the
 * scatter around the line takes the place of that within weeks.
 */
function fitWeeks(sessions: readonly SessionCount[]) {
  const weeks: MarkedWeek[] = weeksOf(sessions).flatMap((week) => {
    const points = ratePoints(week.sessions);
    return points.length === 0 ? [] : { ...week, points };
  });
  const points = weeks.flatMap((week) => week.points);
  const line = fitSlope(points)?.fit;
  const within = points.length - weeks.length;
  const known: KnownErrors =
    within >= fewestWithinWeeks
      ? { r: line?.r ?? serialPrior.correlation }
      : (line ?? { r: serialPrior.correlation, phi: 1, degrees: Math.max(1, points.length - 1) });
  const fitted = fitStretches(
    weeks.map((week) => week.points),
    known,
  );
  return { weeks, rates: fitted.rates };
}

/**
 * Week against week within one phase, from five sessions in two weeks on.
 *
 * @param sessions of one source and one phase, oldest first
 *
 * Source: see `fitStretches`. Example: weekStatement([]) // not-enough, "few-sessions"
 */
export function weekStatement(sessions: readonly SessionCount[]): Result<WeekStatement> {
  const have = ratePoints(sessions).length;
  if (have < fewestSessionsForTrend) return notEnough("few-sessions", have, fewestSessionsForTrend);
  const { weeks, rates } = fitWeeks(sessions);
  const [before, week] = weeks.slice(-2);
  const [earlier, later] = rates.slice(-2);
  if (before === undefined || week === undefined || earlier === undefined || later === undefined) {
    return notEnough("few-weeks", weeks.length, 2);
  }
  const inPoints = (confidence: number) =>
    scaled(stretchDifference(earlier, later, confidence).interval);
  const change = stretchDifference(earlier, later, clearConfidence).difference;
  return {
    kind: "enough",
    points: change * 100 + 0,
    ...stateChange(change, inPoints(clearConfidence), inPoints(probableConfidence)),
    week: week.start,
    before: before.start,
    weeksApart: (dayNumber(week.start) - dayNumber(before.start)) / 7,
    sessions: [week.points.length, before.points.length],
  };
}

/** The rate of each week of one phase and one source. Example: weekRateStatements([]) // [] */
export function weekRateStatements(sessions: readonly SessionCount[]): WeekRateStatement[] {
  const { weeks, rates } = fitWeeks(sessions);
  return weeks.map(({ start }, at) => {
    const rate = rates[at] as StretchRate; // one rate for each week, in order
    return {
      week: start,
      rate: rate.on / rate.marks,
      interval: stretchInterval(rate, clearConfidence),
      sessions: rate.sessions,
      marks: rate.marks,
    };
  });
}

const scaled = ({ lower, upper }: Interval): Interval => ({
  lower: lower * 100,
  upper: upper * 100,
});
