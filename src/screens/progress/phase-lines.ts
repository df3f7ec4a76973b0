import { dayNumber, dayText } from "../../../shared/analysis/calendar.ts";
import {
  type PhaseSpan,
  seriesOf,
  splitIntoPhases,
} from "../../../shared/analysis/phases/phase-series.ts";
import { type DayPoint, phaseTrend } from "../../../shared/analysis/phases/trend.ts";
import { median } from "../../../shared/analysis/time-points.ts";
import type { SessionCount, Source } from "../../../shared/analysis/types.ts";

/** A line's rate on its first and last day; may lie outside 0 to 1, a chart clips it there. */
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

/** The part of a straight line that lies within a span of days; null when none does. */
export function clipLine(
  line: DrawnLine,
  days: { readonly first: string; readonly last: string },
  span: { readonly first: string; readonly last: string },
): { from: number; to: number; first: number; last: number } | null {
  const start = dayNumber(days.first);
  const end = dayNumber(days.last);
  const from = Math.max(start, dayNumber(span.first));
  const to = Math.min(end, dayNumber(span.last));
  if (from > to) return null;
  const slope = end === start ? 0 : (line.last - line.first) / (end - start);
  const rateOn = (day: number) => line.first + slope * (day - start);
  return { from, to, first: rateOn(from), last: rateOn(to) };
}
