import { dayNumber, dayText, isoWeekOf, mondayOf } from "../calendar/calendar.ts";
import type { Counts, SessionCount } from "../record/session-count.ts";
import { newcombeAt } from "../statistics/newcombe.ts";
import { criticalZ } from "../statistics/normal.ts";
import { type Direction, type Interval, notEnough, type Result } from "../statistics/result.ts";
import { criticalT } from "../statistics/student-t.ts";
import { type Dispersion, designEffect } from "./dispersion.ts";
import {
  clearConfidence,
  directionOf,
  type Evidence,
  evidenceOfChange,
  probableConfidence,
} from "./evidence.ts";
import { dispersedShare, type PooledRate, pooledRate } from "./pooled.ts";
import { addCounts, marked } from "./rate.ts";

/** A school week in which at least one session was held. */
export interface Week<T extends SessionCount = SessionCount> {
  /** Its Monday and its Sunday, `YYYY-MM-DD`. */
  readonly start: string;
  readonly end: string;
  /** ISO 8601 year and number of the week. */
  readonly year: number;
  readonly week: number;
  readonly sessions: readonly T[];
}

export type WeekRate = Omit<Week, "sessions"> & {
  readonly sessionIds: readonly string[];
  readonly counts: Counts;
  readonly pooled: Result<PooledRate>;
};

/** Sessions gathered into ISO weeks (Monday to Sunday) of their local day, oldest week first. */
export function weeksOf<T extends SessionCount>(sessions: readonly T[]): Week<T>[] {
  const byMonday = new Map<number, T[]>();
  for (const session of sessions) {
    const monday = mondayOf(dayNumber(session.day));
    const list = byMonday.get(monday);
    if (list === undefined) byMonday.set(monday, [session]);
    else list.push(session);
  }
  return [...byMonday]
    .sort(([a], [b]) => a - b)
    .map(([monday, list]) => {
      const { year, week } = isoWeekOf(monday);
      return { start: dayText(monday), end: dayText(monday + 6), year, week, sessions: list };
    });
}

/**
 * One dispersion for all weeks: sessions are compared with the rate of their own week. Where every week has a
 * single session nothing repeats within one, and all sessions are taken as one stretch: a steady rise then
 * counts as scatter, which errs toward "cannot tell".
 */
export function weeklyDispersion(weeks: readonly Week[]): Dispersion {
  const within = designEffect(weeks.map((week) => week.sessions));
  return within.degrees > 0 ? within : designEffect([weeks.flatMap((week) => week.sessions)]);
}

/** The on-task rate of each week, with the interval widened by the common design effect. */
export function weekRates(
  weeks: readonly Week[],
  { designEffect: effect }: Dispersion = weeklyDispersion(weeks),
): WeekRate[] {
  return weeks.map(({ start, end, year, week, sessions }) => ({
    start,
    end,
    year,
    week,
    sessionIds: sessions.map((session) => session.sessionId),
    counts: addCounts(sessions),
    pooled: pooledRate(sessions, { designEffect: effect }),
  }));
}

export interface WeekChange {
  /** Mondays of the two weeks compared: the newest with marks, and the newest before it with marks. */
  readonly week: string;
  readonly before: string;
  /** 1 for neighbouring weeks; more when weeks without marks lie between. */
  readonly weeksApart: number;
  /** On-task rate of the newer week less that of the older, as a proportion from -1 to 1. */
  readonly difference: number;
  readonly interval: Interval;
  readonly direction: Direction;
  readonly evidence: Evidence;
}

/**
 * The newest week with marks against the one before it: the difference of the pooled rates with
 * Newcombe's interval on the dispersed counts, and how firmly it may be worded (see
 * `evidenceOfChange`). Where few sessions tell how far sessions scatter, Student's t with their degrees of
 * freedom takes the place of the normal value: otherwise a steady student with two or three sessions a
 * week would be said to have clearly changed about one time in ten.
 */
export function weekAgainstWeek(
  weeks: readonly Week[],
  dispersion: Dispersion = weeklyDispersion(weeks),
): Result<WeekChange> {
  const withMarks = weeks.filter((week) => week.sessions.some((session) => marked(session) > 0));
  const week = withMarks.at(-1);
  const before = withMarks.at(-2);
  if (week === undefined || before === undefined) {
    return notEnough("few-weeks", withMarks.length, 2);
  }
  return {
    kind: "enough",
    week: week.start,
    before: before.start,
    weeksApart: (dayNumber(week.start) - dayNumber(before.start)) / 7,
    ...changeOfRate(addCounts(before.sessions), addCounts(week.sessions), dispersion),
  };
}

/** Change from one pooled count to another, with its interval, direction and evidence. */
function changeOfRate(
  before: Counts,
  after: Counts,
  { designEffect: effect, degrees }: Dispersion,
) {
  const from = dispersedShare(before, effect);
  const to = dispersedShare(after, effect);
  // With no degrees all sessions were alike, all on task or all off.
  const critical = (level: number) =>
    degrees === 0 ? criticalZ(level) : criticalT(level, degrees);
  const wide = newcombeAt(to, from, critical(clearConfidence));
  const narrow = newcombeAt(to, from, critical(probableConfidence));
  // From the counts themselves: dividing by the design effect first would leave a rounding error.
  const difference = after.on / marked(after) - before.on / marked(before);
  return {
    difference,
    interval: wide.interval,
    direction: directionOf(difference),
    evidence: evidenceOfChange(wide.interval, narrow.interval),
  };
}
