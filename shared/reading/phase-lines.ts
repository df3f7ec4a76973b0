import { type PhaseSpan, splitIntoPhases } from "../analysis/phases/phase-series.ts";
import { trendRule } from "../analysis/phases/trend.ts";
import { type RatePoint, ratePoints } from "../analysis/statements/points.ts";
import { sessionsBy } from "../analysis/statements/record-reading.ts";
import { trendOfPoints } from "../analysis/statements/trend-statement.ts";
import { dayNumber } from "../calendar/calendar.ts";
import type { SessionCount, Source } from "../record/session-count.ts";
import { mean } from "../statistics/moments.ts";
import type { Interval, Result } from "../statistics/result.ts";

/** A line's rate on its first and last day; may lie outside 0 to 1, see `clipLine`. */
export interface DrawnLine {
  readonly first: number;
  readonly last: number;
}

/** Level and trend of one phase by one source, from its first point's day to its last one's. */
export interface PhaseLines {
  readonly source: Source;
  readonly firstDay: string;
  readonly lastDay: string;
  readonly level: number;
  /** The least-squares line of the headline, and the lines of its interval's two slopes through its middle. */
  readonly trend: {
    readonly line: DrawnLine;
    readonly shallow: DrawnLine;
    readonly steep: DrawnLine;
  } | null;
}

/** The slope to draw through a phase's points and its interval, in percentage points a week. */
export interface DrawnSlope {
  readonly pointsPerWeek: number;
  readonly interval: Interval;
}

/**
 * What the overlays draw, phase by phase. Sessions before the first phase, or without any, count as a
 * stretch of their own.
 *
 * @param slopeOf the slope of a phase by its place among `spans`, -1 for the days before the first; that of
 *   its own sessions when left out. None is drawn for a phase shorter than `trendRule` asks.
 */
export function phaseLines(
  spans: readonly PhaseSpan[],
  sessions: readonly SessionCount[],
  source: Source,
  slopeOf?: (place: number) => Result<DrawnSlope>,
): PhaseLines[] {
  const before: PhaseSpan = { kind: "baseline", label: "", startsOn: "0001-01-01" };
  return splitIntoPhases([before, ...spans], sessions).flatMap((phase, at) => {
    const points = ratePoints(sessionsBy(phase.sessions, source));
    const first = points[0];
    const last = points.at(-1);
    if (first === undefined || last === undefined) return [];
    const rates = points.map(({ on, marks }) => on / marks);
    const isLong =
      points.length >= trendRule.fewestPoints && last.day - first.day + 1 >= trendRule.fewestDays;
    const slope = isLong ? (slopeOf?.(at - 1) ?? trendOfPoints(points)) : null;
    return {
      source,
      firstDay: first.session.day,
      lastDay: last.session.day,
      level: mean(rates),
      trend: slope?.kind === "enough" ? trendLines(points, slope) : null,
    };
  });
}

/** Lines through the middle of the marks, where least squares has the line pass. */
function trendLines(points: readonly RatePoint[], { pointsPerWeek, interval }: DrawnSlope) {
  const marks = points.reduce((sum, point) => sum + point.marks, 0);
  const rate = points.reduce((sum, { on }) => sum + on, 0) / marks;
  const day = points.reduce((sum, point) => sum + point.marks * point.day, 0) / marks;
  const first = points[0]?.day ?? day;
  const last = points.at(-1)?.day ?? day;
  const through = (slope: number): DrawnLine => ({
    first: rate + (slope / 700) * (first - day),
    last: rate + (slope / 700) * (last - day),
  });
  return {
    line: through(pointsPerWeek),
    shallow: through(interval.lower),
    steep: through(interval.upper),
  };
}

/** The visible part of a line: its ends in days since 1970, and its rates there, within 0 to 1. */
export interface LinePart {
  readonly from: number;
  readonly to: number;
  readonly first: number;
  readonly last: number;
}

/**
 * The part of a line that lies within a span of days and between 0 and 100 %; null when none does. Ends
 * are cut where the line leaves the chart, so that its slope stays what it is.
 */
export function clipLine(
  line: DrawnLine,
  days: { readonly first: string; readonly last: string },
  span: { readonly first: string; readonly last: string },
): LinePart | null {
  const start = dayNumber(days.first);
  const end = dayNumber(days.last);
  const slope = end === start ? 0 : (line.last - line.first) / (end - start);
  const rateOn = (day: number) => line.first + slope * (day - start);
  let from = Math.max(start, dayNumber(span.first));
  let to = Math.min(end, dayNumber(span.last));
  if (slope === 0) {
    if (line.first < 0 || line.first > 1) return null;
  } else {
    const crossings = [start - line.first / slope, start + (1 - line.first) / slope];
    from = Math.max(from, Math.min(...crossings));
    to = Math.min(to, Math.max(...crossings));
  }
  return from > to ? null : { from, to, first: rateOn(from), last: rateOn(to) };
}
