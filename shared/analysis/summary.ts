import { dayNumber } from "../calendar/calendar.ts";
import type { Counts, SessionCount, Source } from "../record/session-count.ts";
import { type LogisticTrend, logisticTrend } from "../statistics/logistic.ts";
import { type Interval, notEnough, type Result } from "../statistics/result.ts";
import { hourPattern, type Pattern, subjectPattern, weekdayPattern } from "./patterns.ts";
import { type PooledRate, pooledRate } from "./pooled.ts";
import { addCounts, checkCounts, marked, onTaskRate, responseRate } from "./rate.ts";
import {
  type ChangeSensitivity,
  changeSensitivity,
  type RateSensitivity,
  rateSensitivity,
  readingOf,
} from "./sensitivity.ts";
import { fewestSessionsForTrend, inOrder, type Trend, trendAcrossSessions } from "./trend.ts";
import {
  type WeekChange,
  type WeekRate,
  weekAgainstWeek,
  weeklyDispersion,
  weekRates,
  weeksOf,
} from "./weeks.ts";

export interface AnalysisOptions {
  /** Whose marks to read; the others are left out. The student's own by default. */
  readonly source?: Source;
}

/** One session as a point on the chart. */
export interface SessionReading {
  readonly sessionId: string;
  readonly startedAt: number;
  readonly day: string;
  readonly counts: Counts;
  readonly rate: Result<{ rate: number; interval: Interval; marks: number }>;
  readonly response: Result<{ rate: number; marks: number; cues: number }>;
}

/** One student's marks counted, without any trend: all that the class view needs of the whole record. */
export interface Overview {
  readonly source: Source;
  /** Sessions with at least one mark. */
  readonly sessionsWithMarks: number;
  readonly counts: Counts;
  /** All sessions pooled, with the design effect of sessions within weeks. */
  readonly overall: Result<PooledRate>;
  readonly response: Result<{ rate: number; marks: number; cues: number }>;
  readonly sessions: readonly SessionReading[];
  readonly weeks: readonly WeekRate[];
  readonly weekChange: Result<WeekChange>;
}

/** What opens every student's page: the overview, and the trend of the whole record. */
export type Glance = Overview & { readonly trend: Result<Trend> };

export type Analysis = Glance & {
  /** Time in weeks since the first session. */
  readonly logistic: Result<LogisticTrend>;
  readonly patterns: {
    readonly hour: Result<Pattern<number>>;
    readonly weekday: Result<Pattern<number>>;
    readonly subject: Result<Pattern<string>>;
  };
  readonly sensitivity: {
    readonly rate: Result<RateSensitivity>;
    /** That of the trend goes with the present phase, whose trend is what is said first: `presentSensitivity`. */
    readonly weekChange: ChangeSensitivity;
  };
};

/**
 * One student's sessions, read as far as the class view needs. Sessions may come in any order and are
 * not changed. Under five sessions with marks the week change is `not-enough`. Throws RangeError for
 * counts below zero or days that do not exist.
 */
export function overviewStudent(
  sessions: readonly SessionCount[],
  options: AnalysisOptions = {},
): Overview {
  const source = options.source ?? "self";
  const used = inOrder(sessions.filter((session) => session.source === source));
  used.forEach(checkCounts);
  const counts = addCounts(used);
  const weeks = weeksOf(used);
  const dispersion = weeklyDispersion(weeks);
  return {
    source,
    sessionsWithMarks: used.filter((session) => marked(session) > 0).length,
    counts,
    overall: pooledRate(used, { designEffect: dispersion.designEffect }),
    response: responseRate(counts),
    sessions: used.map((session) => ({
      sessionId: session.sessionId,
      startedAt: session.startedAt,
      day: session.day,
      counts: { on: session.on, off: session.off, missing: session.missing },
      rate: onTaskRate(session),
      response: responseRate(session),
    })),
    weeks: weekRates(weeks, dispersion),
    weekChange: withEnoughSessions(used, () => weekAgainstWeek(weeks, dispersion)),
  };
}

/** The overview with the trend of the whole record; see `overviewStudent` for what is withheld. */
export function glanceStudent(
  sessions: readonly SessionCount[],
  options: AnalysisOptions = {},
): Glance {
  const overview = overviewStudent(sessions, options);
  const used = sessions.filter(({ source }) => source === overview.source);
  return { ...overview, trend: trendAcrossSessions(used) };
}

/** Everything the pane shows of one student. See `glanceStudent` for what is withheld and when. */
export function analyseStudent(
  sessions: readonly SessionCount[],
  options: AnalysisOptions = {},
): Analysis {
  const glance = glanceStudent(sessions, options);
  const used = inOrder(sessions.filter((session) => session.source === glance.source));
  return {
    ...glance,
    logistic: withEnoughSessions(used, () => logisticTrend(trialsByWeek(used))),
    patterns: {
      hour: withEnoughSessions(used, () => hourPattern(used)),
      weekday: withEnoughSessions(used, () => weekdayPattern(used)),
      subject: withEnoughSessions(used, () => subjectPattern(used)),
    },
    sensitivity: {
      rate:
        glance.overall.kind === "enough"
          ? rateSensitivity(glance.counts, glance.overall.interval)
          : glance.overall,
      weekChange: changeSensitivity(
        used,
        readingOf(glance.weekChange),
        glance.weekChange.kind === "enough" ? glance.weekChange.week : middleDay(used),
        (list) => readingOf(weekChangeOf(list)),
      ),
    },
  };
}

export interface StudentSessions {
  readonly studentId: string;
  readonly sessions: readonly SessionCount[];
}

export interface GroupAnalysis {
  /** In the order given, which is the roster's. */
  readonly students: readonly (Glance & { readonly studentId: string })[];
  /** All students' marks added up session by session. */
  readonly pooled: Analysis;
}

/**
 * A group: each student at a glance, and the group as a whole. Marks of one session are added over
 * students, so the session stays the unit: what a whole class shares on a good or a bad day widens the
 * intervals.
 */
export function analyseGroup(
  students: readonly StudentSessions[],
  options: AnalysisOptions = {},
): GroupAnalysis {
  return {
    students: students.map(({ studentId, sessions }) => ({
      studentId,
      ...glanceStudent(sessions, options),
    })),
    pooled: analyseStudent(addOverStudents(students), options),
  };
}

interface RunningSum {
  first: SessionCount;
  on: number;
  off: number;
  missing: number;
}

/** One count for each session and source, over all students. */
export function addOverStudents(students: readonly StudentSessions[]): SessionCount[] {
  const bySource = { self: new Map<string, RunningSum>(), observer: new Map<string, RunningSum>() };
  for (const { sessions } of students) {
    for (const session of sessions) {
      const { on, off, missing } = session;
      const sums = bySource[session.source];
      const sum = sums.get(session.sessionId);
      if (sum === undefined) sums.set(session.sessionId, { first: session, on, off, missing });
      else {
        sum.on += on;
        sum.off += off;
        sum.missing += missing;
      }
    }
  }
  return [...bySource.self.values(), ...bySource.observer.values()].map(({ first, ...sums }) => ({
    ...first,
    ...sums,
  }));
}

function withEnoughSessions<T>(
  sessions: readonly SessionCount[],
  compute: () => Result<T>,
): Result<T> {
  const have = sessions.filter((session) => marked(session) > 0).length;
  if (have < fewestSessionsForTrend) return notEnough("few-sessions", have, fewestSessionsForTrend);
  return compute();
}

const weekChangeOf = (sessions: readonly SessionCount[]): Result<WeekChange> =>
  withEnoughSessions(sessions, () => weekAgainstWeek(weeksOf(sessions)));

/** Day of the middle session, where the later half begins. Any text will do when there is none. */
const middleDay = (sessions: readonly SessionCount[]): string =>
  sessions[sessions.length >> 1]?.day ?? "";

function trialsByWeek(sessions: readonly SessionCount[]) {
  const days = sessions.map((session) => dayNumber(session.day));
  const first = days[0] ?? 0;
  return sessions.map((session, at) => ({
    time: ((days[at] ?? first) - first) / 7,
    on: session.on,
    off: session.off,
  }));
}
