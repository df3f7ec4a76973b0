import type { SessionReading } from "../analysis/summary.ts";
import { dayNumber } from "../calendar/calendar.ts";
import { isApart } from "../calendar/days-off.ts";
import type { Source } from "../record/session-count.ts";
import type { Interval } from "../statistics/result.ts";
import { minuteOfDay } from "./session-counts.ts";

/** One session as the single-case graph draws it. */
export interface GraphPoint {
  readonly sessionId: string;
  readonly source: Source;
  readonly day: string;
  /** Days since 1970 with the time of day as fraction, in the school's local time. */
  readonly at: number;
  readonly on: number;
  readonly marks: number;
  readonly cues: number;
  readonly rate: number;
  readonly interval: Interval;
  /**
   * Points of one run are joined; a run ends with its phase, at a missed session and at a long gap. Nothing
   * is missed on a day off.
   */
  readonly run: number;
}

/** Sessions farther apart than this, days off not counted, are not joined: nobody saw what lay between. */
export const longestJoinedDays = 10;

/** When a session of the group was held; `startsAt` as in `GraphPoint.at`. */
export interface HeldSession {
  readonly sessionId: string;
  readonly startsAt: number;
}

/** The moment of a session on a chart's axis of local days. */
export const localMoment = (session: {
  readonly day: string;
  readonly startedMs: number;
  readonly offsetMinutes: number;
}): number => dayNumber(session.day) + minuteOfDay(session) / 1_440;

/**
 * A student's sessions of one source as points to draw. Sessions without a mark give no point and break
 * the line, as does a session of the same source that the group held without this student.
 *
 * @param held the group's sessions in which somebody has a record of this source, oldest first
 * @param phaseStarts first days of the phases, in order
 * @param off the days off, as `dayNumbers` gives them
 */
export function graphPoints(
  readings: readonly SessionReading[],
  source: Source,
  held: readonly HeldSession[],
  phaseStarts: readonly string[],
  off: ReadonlySet<number>,
): GraphPoint[] {
  const bySession = new Map(readings.map((reading) => [reading.sessionId, reading]));
  const points: GraphPoint[] = [];
  let run = 0;
  let missed = false;
  for (const { sessionId, startsAt } of held) {
    const reading = bySession.get(sessionId);
    if (reading === undefined || reading.rate.kind === "not-enough") {
      missed ||= !off.has(Math.floor(startsAt));
      continue;
    }
    const last = points.at(-1);
    const phaseBetween =
      last !== undefined && phaseStarts.some((start) => start > last.day && start <= reading.day);
    const isFar = last !== undefined && isApart(last.at, startsAt, longestJoinedDays, off);
    if (missed || phaseBetween || isFar) run += 1;
    missed = false;
    points.push({
      sessionId,
      source,
      day: reading.day,
      at: startsAt,
      on: reading.counts.on,
      marks: reading.rate.marks,
      cues: reading.rate.marks + reading.counts.missing,
      rate: reading.rate.rate,
      interval: reading.rate.interval,
      run,
    });
  }
  return points;
}
