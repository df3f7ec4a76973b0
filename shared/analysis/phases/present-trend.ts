import { dayNumber } from "../../calendar/calendar.ts";
import type { SessionCount, Source } from "../../record/session-count.ts";
import { type LogisticTrend, logisticTrend } from "../../statistics/logistic.ts";
import type { Result } from "../../statistics/result.ts";
import { marked } from "../rate.ts";
import { recentSessions } from "../recent.ts";
import { type ChangeSensitivity, changeSensitivity, readingOf } from "../sensitivity.ts";
import { fewestSessionsForTrend, inOrder, type Trend, trendAcrossSessions } from "../trend.ts";
import type { PhaseSpan } from "./phase-series.ts";

/** What is going on now: the trend since the present phase began, not over everything there ever was. */
export interface PresentTrend {
  /** The phase in which today lies; null when no phase has begun. */
  readonly phase: PhaseSpan | null;
  /** The student's own records; an observer's where these are too few; see `presentSessions`. */
  readonly source: Source;
  /** Over all sessions of the phase. */
  readonly trend: Result<Trend>;
  /** Over the newest sessions of the phase alone; null when these are all of it. */
  readonly recent: Result<Trend> | null;
}

/**
 * The trend within the phase that holds `today`, and within its newest sessions. A line over baseline
 * and program together would show the jump between them as a rise, and years of rise would hide a fall
 * of weeks.
 *
 * @param phases those by which the student is read, first day first
 * @param today `YYYY-MM-DD`; sessions after it are in the phase too
 */
export function presentTrend(
  phases: readonly PhaseSpan[],
  sessions: readonly SessionCount[],
  today: string,
): PresentTrend {
  const phase = phaseOn(phases, today);
  const { source, held } = presentSessions(phase, sessions);
  return {
    phase,
    source,
    trend: trendAcrossSessions(held),
    recent: held.length > recentSessions ? trendAcrossSessions(held.slice(-recentSessions)) : null,
  };
}

/** The phase in which a day lies; null before the first. Example: phaseOn([], "2026-03-02") // null */
export const phaseOn = (phases: readonly PhaseSpan[], day: string): PhaseSpan | null =>
  phases.findLast(({ startsOn }) => startsOn <= day) ?? null;

/** The logistic trend of the present phase; time in weeks. Withheld where the trend is. */
export function presentLogistic(
  { phase, trend }: PresentTrend,
  sessions: readonly SessionCount[],
): Result<LogisticTrend> {
  if (trend.kind === "not-enough") return trend;
  const { held } = presentSessions(phase, sessions);
  const first = dayNumber(held[0]?.day ?? "1970-01-01");
  return logisticTrend(
    held.map(({ day, on, off }) => ({ time: (dayNumber(day) - first) / 7, on, off })),
  );
}

/** Whether missing marks could change what is said of the trend of the present phase. */
export function presentSensitivity(
  { phase, source, trend }: PresentTrend,
  sessions: readonly SessionCount[],
): ChangeSensitivity {
  const since = inOrder(
    sessions.filter(
      (session) => session.source === source && (phase === null || session.day >= phase.startsOn),
    ),
  );
  const middle = since[since.length >> 1]?.day ?? "";
  return changeSensitivity(since, readingOf(trend), middle, (list) =>
    readingOf(trendAcrossSessions(list)),
  );
}

/**
 * The sessions with marks since the phase began, of one source, oldest first: the student's own where they
 * are enough for a trend, or at least as many as an observer's.
 */
export function presentSessions(phase: PhaseSpan | null, sessions: readonly SessionCount[]) {
  const since = sessions.filter(
    (session) => marked(session) > 0 && (phase === null || session.day >= phase.startsOn),
  );
  const by = (source: Source) => since.filter((session) => session.source === source);
  const own = by("self");
  const observed = by("observer");
  return own.length >= Math.min(observed.length, fewestSessionsForTrend)
    ? { source: "self" as const, held: inOrder(own) }
    : { source: "observer" as const, held: inOrder(observed) };
}
