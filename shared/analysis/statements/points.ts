import { dayNumber } from "../../calendar/calendar.ts";
import type { SessionCount } from "../../record/session-count.ts";
import { marked } from "../rate.ts";

/** A session with marks, as the statements read it. */
export interface RatePoint {
  readonly session: SessionCount;
  /** Days since 1970 of the local day. */
  readonly day: number;
  readonly on: number;
  /** Cues with a mark, at least 1. */
  readonly marks: number;
}

/** Sessions without a mark have no rate and are left out. Example: ratePoints([]) // [] */
export function ratePoints(sessions: readonly SessionCount[]): RatePoint[] {
  return sessions.flatMap((session) => {
    const marks = marked(session);
    return marks === 0 ? [] : { session, day: dayNumber(session.day), on: session.on, marks };
  });
}

/**
 * Variance of one mark at the rate of these points, p (1 - p). Two marks on and two off are added first,
 * so that a record of one kind only still has some: all alike is not all certain.
 *
 * Source: Agresti A, Coull BA (1998), The American Statistician 52:119-126.
 *
 * Example: markVariance([]) // 0.25
 */
export function markVariance(points: readonly RatePoint[]): number {
  let on = 2;
  let marks = 4;
  for (const point of points) {
    on += point.on;
    marks += point.marks;
  }
  const rate = on / marks;
  return rate * (1 - rate);
}
