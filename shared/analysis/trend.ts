import { dayNumber } from "../calendar/calendar.ts";
import type { SessionCount } from "../record/session-count.ts";
import { type Direction, type Interval, notEnough, type Result } from "../statistics/result.ts";
import { serialTrend } from "../statistics/serial-trend.ts";
import { directionOf, type Evidence, evidenceOfP, weakerEvidence } from "./evidence.ts";
import { marked } from "./rate.ts";

/** With fewer sessions than this no trend is shown. */
export const fewestSessionsForTrend = 5;

export interface Trend {
  /** Theil-Sen slope and its 95 % interval, in percentage points per seven days. */
  readonly slopePointsPerWeek: number;
  readonly intervalPointsPerWeek: Interval;
  /** The line's rate on the first and the last day. May lie outside 0 to 1; a chart clips it there. */
  readonly line: readonly [DayRate, DayRate];
  /** Mann-Kendall, two-sided. */
  readonly p: number;
  readonly tau: number;
  /** Kendall's S, and its variance with ties and serial correlation. */
  readonly s: number;
  readonly sVariance: number;
  readonly method: "exact" | "normal";
  /** Factor on the variance of S for serial correlation; 1 when there is none. */
  readonly serialFactor: number;
  /** Every session has the same rate: there is nothing to see a trend in. */
  readonly allAlike: boolean;
  readonly direction: Direction;
  readonly evidence: Evidence;
  readonly sessions: number;
  /** Days from the first session with marks to the last. */
  readonly days: number;
}

export interface DayRate {
  readonly day: string;
  readonly rate: number;
}

/**
 * Trend of the on-task rate across sessions with marks; time is calendar days since the first.
 *
 * Evidence. Clear: Mann-Kendall's two-sided p is at most .05, and the slope's 95 % interval does not
 * reach past zero. Probable: p is at most .20. Either way the slope must not be zero; otherwise: cannot
 * tell yet. The interval may end at zero exactly: sessions of few cues often have equal rates, which
 * make many slopes of zero, and asking for more would hide most real changes (see the simulated
 * students in the tests). Sources: see
 * `serialTrend`; the two levels are common practice, no source.
 */
export function trendAcrossSessions(sessions: readonly SessionCount[]): Result<Trend> {
  const used = inOrder(sessions).filter((session) => marked(session) > 0);
  if (used.length < fewestSessionsForTrend) {
    return notEnough("few-sessions", used.length, fewestSessionsForTrend);
  }
  const dayNumbers = used.map((session) => dayNumber(session.day));
  const first = dayNumbers[0] ?? 0;
  const times = dayNumbers.map((day) => day - first);
  const rates = used.map((session) => session.on / marked(session));
  const found = serialTrend(times, rates);
  if (found.kind === "not-enough") return found;
  const { line, test } = found;
  // Adding 0 turns -0 into 0.
  const perWeek = (slope: number) => slope * 700 + 0;
  const interval = { lower: perWeek(line.interval.lower), upper: perWeek(line.interval.upper) };
  const ends = [used[0], used.at(-1)].map((session) => session?.day ?? "");
  const lastTime = times.at(-1) ?? 0;
  return {
    kind: "enough",
    slopePointsPerWeek: perWeek(line.slope),
    intervalPointsPerWeek: interval,
    line: [
      { day: ends[0] ?? "", rate: line.intercept },
      { day: ends[1] ?? "", rate: line.intercept + line.slope * lastTime },
    ],
    p: test.p,
    tau: test.tau,
    s: test.s,
    sVariance: test.variance,
    method: test.method,
    serialFactor: line.varianceFactor,
    allAlike: rates.every((rate) => rate === rates[0]),
    direction: directionOf(line.slope),
    evidence: evidenceOfTrend(line.slope, interval, test.p),
    sessions: used.length,
    days: lastTime,
  };
}

function evidenceOfTrend(slope: number, interval: Interval, p: number): Evidence {
  if (slope === 0) return "cannot-tell";
  const oneSided = interval.lower >= 0 || interval.upper <= 0;
  return weakerEvidence(evidenceOfP(p), oneSided ? "clear" : "probable");
}

/** Oldest first; sessions that started together keep a fixed order. A new list. */
export function inOrder<T extends SessionCount>(sessions: readonly T[]): T[] {
  const byStart = (a: T, b: T) => a.startedAt - b.startedAt || (a.sessionId < b.sessionId ? -1 : 1);
  // A record comes in order already, and is put in order by each statistic that is asked of it.
  const isOrdered = sessions.every((session, at) => {
    const before = sessions[at - 1];
    return before === undefined || byStart(before, session) < 0;
  });
  return isOrdered ? [...sessions] : sessions.toSorted(byStart);
}
