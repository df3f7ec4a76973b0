import { type PhaseSpan, seriesOf, splitIntoPhases } from "../analysis/phases/phase-series.ts";
import { type DayPoint, phaseTrend } from "../analysis/phases/trend.ts";
import { dayNumber, dayText } from "../calendar/calendar.ts";
import type { SessionCount, Source } from "../record/session-count.ts";
import { median } from "../statistics/time-points.ts";

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
  /** The Theil-Sen line, and the lines of its interval's two slopes through the same middle. */
  readonly trend: {
    readonly line: DrawnLine;
    readonly shallow: DrawnLine;
    readonly steep: DrawnLine;
  } | null;
}

/**
 * What the overlays draw, phase by phase. Sessions before the first phase, or without any, count as a
 * stretch of their own.
 */
export function phaseLines(
  spans: readonly PhaseSpan[],
  sessions: readonly SessionCount[],
  source: Source,
): PhaseLines[] {
  const before: PhaseSpan = { kind: "baseline", label: "", startsOn: "0001-01-01" };
  return seriesOf(splitIntoPhases([before, ...spans], sessions), source).flatMap(({ points }) => {
    const first = points[0];
    const last = points.at(-1);
    if (first === undefined || last === undefined) return [];
    return {
      source,
      firstDay: dayText(first.day),
      lastDay: dayText(last.day),
      level: points.reduce((sum, { value }) => sum + value, 0) / points.length,
      trend: trendLines(points, first.day, last.day),
    };
  });
}

function trendLines(points: readonly DayPoint[], first: number, last: number) {
  const trend = phaseTrend(points);
  if (trend.kind === "not-computable") return null;
  const middleDay = median(points.map(({ day }) => day));
  const middleRate = median(points.map(({ value }) => value));
  const through = (slopePerWeek: number): DrawnLine => ({
    first: middleRate + (slopePerWeek / 7) * (first - middleDay),
    last: middleRate + (slopePerWeek / 7) * (last - middleDay),
  });
  return {
    line: through(trend.slopePerWeek),
    shallow: through(trend.interval.lower),
    steep: through(trend.interval.upper),
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
