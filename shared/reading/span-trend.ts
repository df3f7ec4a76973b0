import type { PhaseSpan } from "../analysis/phases/phase-series.ts";
import { type TrendStatement, trendStatement } from "../analysis/statements/trend-statement.ts";
import { inOrder } from "../analysis/trend.ts";
import type { SessionCount, Source } from "../record/session-count.ts";
import type { Result } from "../statistics/result.ts";
import type { GraphPoint } from "./graph-points.ts";
import { isWithin, laterDay, type Span } from "./span.ts";

/** What the days that are shown say for themselves. */
export interface SpanTrend {
  readonly source: Source;
  readonly sessions: number;
  /** All marks of these days together, 0 to 1. */
  readonly rate: number;
  /** The newest phase in the span, and its days there; null when none had begun. */
  readonly phase: PhaseSpan | null;
  readonly within: Span;
  /** Within that phase only: a line over two phases would show the jump between them. */
  readonly trend: Result<TrendStatement>;
}

/**
 * Reads the points in a span: self-records, an observer's where the span holds nothing else. Null
 * when it holds no point.
 *
 * @param phases those by which the student is read, first day first
 */
export function spanTrend(
  points: readonly GraphPoint[],
  phases: readonly PhaseSpan[],
  span: Span,
): SpanTrend | null {
  const shown = points.filter(({ day }) => isWithin(day, span));
  const own = shown.filter(({ source }) => source === "self");
  const source: Source = own.length > 0 ? "self" : "observer";
  const read = own.length > 0 ? own : shown;
  const marks = read.reduce((sum, point) => sum + point.marks, 0);
  if (marks === 0) return null;
  const phase = phases.findLast(({ startsOn }) => startsOn <= span.last) ?? null;
  const within = { first: laterDay(span.first, phase?.startsOn ?? span.first), last: span.last };
  const inPhase = read.filter(({ day }) => isWithin(day, within)).map(asCount);
  return {
    source,
    sessions: read.length,
    rate: read.reduce((sum, point) => sum + point.on, 0) / marks,
    phase,
    within,
    trend: trendStatement(inOrder(inPhase)),
  };
}

const asCount = ({ sessionId, source, day, at, on, marks, cues }: GraphPoint): SessionCount => ({
  sessionId,
  startedAt: at,
  day,
  on,
  off: marks - on,
  missing: cues - marks,
  source,
});
