import { type AgreementSummary, agreementSummary } from "../agreement/agreement-summary.ts";
import type { CheckStanding } from "../agreement/check-step.ts";
import {
  type BaselineReadiness,
  baselineReadiness,
} from "../analysis/phases/baseline-readiness.ts";
import { comparedSeries, splitIntoPhases } from "../analysis/phases/phase-series.ts";
import { type PhaseSummary, phaseSummary } from "../analysis/phases/phase-summary.ts";
import { phaseOn } from "../analysis/phases/present-trend.ts";
import { addCounts, responseRate } from "../analysis/rate.ts";
import { recentChecks, recentOf } from "../analysis/recent.ts";
import {
  type BetweenCaseStatement,
  betweenCaseStatement,
} from "../analysis/statements/between-case.ts";
import {
  type ClassReading,
  classPhaseTrend,
  readClass,
} from "../analysis/statements/class-reading.ts";
import { classTrend } from "../analysis/statements/class-trend.ts";
import {
  type PresentReading,
  readPresent,
  sessionsBy,
} from "../analysis/statements/record-reading.ts";
import {
  type Analysis,
  addOverStudents,
  analyseStudent,
  type Overview,
  overviewStudent,
  type StudentSessions,
} from "../analysis/summary.ts";
import { dayNumbers } from "../calendar/days-off.ts";
import type { CheckPair, GroupCounts } from "../record/group-counts.ts";
import type { SessionCount, Source } from "../record/session-count.ts";
import type { Result } from "../statistics/result.ts";
import {
  type AdviceMaterial,
  type AdviceSession,
  adviceMaterial,
  adviceSession,
} from "./advice-material.ts";
import { agreementByWeek, type WeekAgreement } from "./agreement-weeks.ts";
import { asPair } from "./as-pair.ts";
import { checkedClosely, groupStanding } from "./check-standing.ts";
import { criterionLines, type DrawnCriterion } from "./criterion-lines.ts";
import { drawOf, keptDraw } from "./drawn/drawn-start.ts";
import { readStaggered, type StaggeredReading } from "./drawn/staggered-reading.ts";
import { readWithdrawal, type WithdrawalReading } from "./drawn/withdrawal-reading.ts";
import { type Flag, flagsOf } from "./flags.ts";
import { type GraphPoint, graphPoints, localMoment } from "./graph-points.ts";
import { heldSessions } from "./held-sessions.ts";
import { type PhaseLines, phaseLines } from "./phase-lines.ts";
import { phasesFor } from "./phase-spans.ts";
import { sessionsOf } from "./session-counts.ts";
import { type WatchedTwice, watchedTwiceIn } from "./watched-twice.ts";

/**
 * Points of a small multiple. Columns of numbers, because thirty-six students' years cross from the
 * worker at once.
 */
export interface GlanceSeries {
  /** Days since 1970 with the time of day as fraction; ascending. */
  readonly at: Float64Array;
  /** On-task rates, 0 to 1. */
  readonly rate: Float64Array;
}

/** What the class view keeps of one student; small, because it crosses from the worker at once. */
export interface StudentGlance
  extends Pick<Overview, "sessionsWithMarks" | "overall" | "response"> {
  readonly studentId: string;
  readonly sessions: GlanceSeries;
  /** School weeks, for spans in which sessions would be a blur. */
  readonly weeks: GlanceSeries;
  readonly flags: readonly Flag[];
  /** The trend of the present phase, which leads, and week against week. */
  readonly said: Pick<PresentReading, "phase" | "source" | "trend" | "week">;
  /** Whether these are an observer's marks, because the student has recorded nothing. */
  readonly observedOnly: boolean;
  /** The newest sessions with marks, oldest first: as many as may decide whether the goal holds. */
  readonly newest: readonly AdviceSession[];
}

/** Three sessions of ten cues decide; fewer cues take more of them. */
const mostThatDecide = 12;

export interface GroupReading {
  /** In the roster's order. */
  readonly students: readonly StudentGlance[];
  /** All self-records added up session by session. */
  readonly pooled: Analysis;
  /** What may be said of the group in a headline: how its students move. */
  readonly said: ClassReading;
  /** The added-up sessions as points to draw, and their phases' level and trend. */
  readonly points: readonly GraphPoint[];
  readonly lines: readonly PhaseLines[];
  readonly phases: PhaseSummary;
  /** How often the program's first day was drawn until it was kept; 0 when it was chosen. */
  readonly timesDrawn: number;
  /** How much of each of `phases` two observers watched. */
  readonly watchedTwice: readonly WatchedTwice[];
  readonly criterion: readonly DrawnCriterion[];
  /** What a program shows that was taken away and came back on drawn days; null without such a draw. */
  readonly withdrawal: WithdrawalReading | null;
  /** The program's effect in standard deviations between students, as trials report it. */
  readonly betweenCase: Result<BetweenCaseStatement>;
  /** What starts that were drawn one after the other show; null for fewer than three of them. */
  readonly staggered: StaggeredReading | null;
  readonly agreement: AgreementSummary;
  /** Agreement over the recent sessions alone, by which the advice goes. */
  readonly recentAgreement: AgreementSummary;
  readonly agreementByWeek: readonly WeekAgreement[];
  /** How often checks come, and why. */
  readonly standing: CheckStanding;
  /** Students who are checked at every cue all the same, in the roster's order. */
  readonly checkedClosely: readonly string[];
  readonly advice: AdviceMaterial;
  /** Whether the newest baseline suffices; null when the group has none. */
  readonly readiness: { readonly phaseId: string; readonly baseline: BaselineReadiness } | null;
}

/**
 * Reads a group; `studentIds` are those to show, in the roster's order.
 *
 * @param onStudent called before each student with how many are done
 */
export function readGroup(
  counts: GroupCounts,
  studentIds: readonly string[],
  onStudent: (done: number) => void = () => {},
): GroupReading {
  const students = studentIds.map((studentId) => ({
    studentId,
    sessions: sessionsOf(counts, studentId),
  }));
  const moments = new Map(counts.sessions.map((session) => [session.id, localMoment(session)]));
  const checks = new Map<string, CheckPair[]>();
  for (const check of counts.checks) {
    const list = checks.get(check.studentId);
    if (list === undefined) checks.set(check.studentId, [check]);
    else list.push(check);
  }
  const together = addOverStudents(students);
  const closely = checkedClosely(counts);
  return {
    students: students.map(({ studentId, sessions }, index) => {
      onStudent(index);
      const recorded = overviewStudent(sessions);
      const observed = recorded.counts.on + recorded.counts.off === 0;
      const glance = observed ? overviewStudent(sessions, { source: "observer" }) : recorded;
      const recent = recentChecks(sessions, checks.get(studentId) ?? []);
      const agreement = recent.length === 0 ? null : agreementSummary(recent.map(asPair));
      const own = phasesFor(counts.phases, studentId);
      const present = readPresent(phaseOn(own, counts.today), sessions);
      return {
        ...slim(studentId, glance, moments),
        said: {
          phase: present.phase,
          source: present.source,
          trend: present.trend,
          week: present.week,
        },
        observedOnly: observed && glance.sessionsWithMarks > 0,
        newest: recentOf(sessions, glance.source).slice(-mostThatDecide).map(adviceSession),
        flags: flagsOf(
          { ...glance, recentResponse: responseRate(addCounts(recentOf(sessions, glance.source))) },
          present,
          agreement,
        ),
      };
    }),
    ...wholeGroup(counts, together, students),
    staggered: readStaggered(counts, students),
    agreement: agreementSummary(counts.checks.map(asPair)),
    recentAgreement: agreementSummary(recentChecks(together, counts.checks).map(asPair)),
    agreementByWeek: agreementByWeek(counts.checks),
    standing: groupStanding(counts),
    checkedClosely: studentIds.filter((id) => closely.has(id)),
    readiness: readinessOf(counts, together),
  };
}

function slim(studentId: string, glance: Overview, moments: ReadonlyMap<string, number>) {
  const { sessionsWithMarks, overall, response } = glance;
  const momentOf = (sessionId: string) => moments.get(sessionId) ?? 0;
  const rated = glance.sessions.filter(({ rate }) => rate.kind === "enough");
  const weeks = glance.weeks.filter(({ pooled }) => pooled.kind === "enough");
  return {
    studentId,
    sessionsWithMarks,
    overall,
    response,
    sessions: {
      at: column(rated, ({ sessionId }) => momentOf(sessionId)),
      rate: column(rated, ({ rate }) => (rate.kind === "enough" ? rate.rate : 0)),
    },
    weeks: {
      at: column(weeks, ({ sessionIds }) => {
        const sum = sessionIds.reduce((total, id) => total + momentOf(id), 0);
        return sum / sessionIds.length;
      }),
      rate: column(weeks, ({ pooled }) => (pooled.kind === "enough" ? pooled.rate : 0)),
    },
  };
}

/** Filled in place: `Float64Array.from` goes through an iterator, and these are a class's years. */
function column<Item>(items: readonly Item[], value: (item: Item) => number): Float64Array {
  const values = new Float64Array(items.length);
  items.forEach((item, index) => {
    values[index] = value(item);
  });
  return values;
}

/** The group as a whole: the session stays the unit, whoever took part in it. */
function wholeGroup(
  counts: GroupCounts,
  together: readonly SessionCount[],
  students: readonly StudentSessions[],
) {
  const phases = phasesFor(counts.phases, null);
  const starts = phases.map(({ startsOn }) => startsOn);
  const off = dayNumbers(counts.daysOff);
  const pooled = analyseStudent(together, { source: "self" });
  const observed = overviewStudent(together, { source: "observer" });
  const split = splitIntoPhases(phases, together);
  const members = students.map(({ studentId, sessions }) => ({
    sessions,
    phases: splitIntoPhases(phasesFor(counts.phases, studentId), sessions),
  }));
  const linesBy = (source: Source) =>
    phaseLines(phases, together, source, (place) =>
      place < 0
        ? classTrend(
            students.map(({ sessions }) =>
              sessionsBy(
                sessions.filter(({ day }) => day < (starts[0] ?? "9999-12-31")),
                source,
              ),
            ),
          )
        : classPhaseTrend(members, split, place, source),
    );
  const { series, pairs } = comparedSeries(split);
  const summary = phaseSummary(series, drawOf(phases) ?? undefined, pairs);
  return {
    pooled,
    betweenCase: betweenCaseStatement(members),
    said: readClass(members, split, together, phaseOn(phases, counts.today)),
    phases: summary,
    timesDrawn: keptDraw(phases)?.times ?? 0,
    watchedTwice: watchedTwiceIn(series, split, counts.observerPairs),
    criterion: criterionLines(series, summary),
    withdrawal: readWithdrawal(phases, together),
    points: [
      ...graphPoints(pooled.sessions, "self", heldSessions(counts, "self"), starts, off),
      ...graphPoints(observed.sessions, "observer", heldSessions(counts, "observer"), starts, off),
    ],
    lines: [...linesBy("self"), ...linesBy("observer")],
    advice: adviceMaterial(together, counts.checks, split, counts.work),
  };
}

/** Judged on the group's pooled sessions, by the source that the baseline would be compared by. */
function readinessOf(counts: GroupCounts, sessions: ReturnType<typeof addOverStudents>) {
  const phases = phasesFor(counts.phases, null);
  const at = phases.findLastIndex(({ kind }) => kind === "baseline");
  const phase = phases[at];
  if (phase === undefined) return null;
  const { series } = comparedSeries(splitIntoPhases(phases, sessions).slice(at, at + 1));
  return { phaseId: phase.id, baseline: baselineReadiness(series[0]?.points ?? []) };
}
