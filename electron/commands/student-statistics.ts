import {
  comparedSeries,
  type PhaseSessions,
  seriesOf,
  splitIntoPhases,
} from "../../shared/analysis/phases/phase-series.ts";
import {
  type PhaseSeries,
  phaseSummary,
  type StartDraw,
} from "../../shared/analysis/phases/phase-summary.ts";
import {
  presentLogistic,
  presentSensitivity,
  presentTrend,
} from "../../shared/analysis/phases/present-trend.ts";
import { pooledRate } from "../../shared/analysis/pooled.ts";
import { missingBounds } from "../../shared/analysis/rate.ts";
import { betweenCaseStatement } from "../../shared/analysis/statements/between-case.ts";
import { addOverStudents, analyseStudent } from "../../shared/analysis/summary.ts";
import type { SessionCount, Source } from "../../shared/record/session-count.ts";
import { phaseStarts } from "../../shared/transfer/phase-starts.ts";
import { parsePhase, writePhase } from "../../shared/transfer/phase-text.ts";
import { groupReading, studentReading } from "./readings.ts";
import type { PhasedSession } from "./session-rows.ts";
import { workDone } from "./work-done.ts";

/** Everything that one student's sessions say; self-records and observer data are never pooled. */
export function studentStatistics(sessions: readonly PhasedSession[], draw?: StartDraw) {
  const phases = phaseRuns(sessions);
  return {
    ...bothSources(sessions, phases, (id) => ({ line: Number(id) }), draw),
    ...studentReading(sessions, phases),
    work: workDone(sessions),
  };
}

/**
 * The same of all students together: the marks of sessions that began at one moment are added up, so
 * that the session stays the unit. Phases are those that most students share.
 */
export function groupStatistics(students: readonly (readonly PhasedSession[])[], draw?: StartDraw) {
  const together = addOverStudents(
    students.map((sessions, at) => ({ studentId: String(at), sessions: sessions.map(byMoment) })),
  ).sort((one, other) => one.startedAt - other.startedAt);
  const days = students.flatMap((sessions, at) =>
    sessions.map(({ day, phase }) => ({
      student: String(at),
      day,
      phase: parsePhase(phase) ?? null,
    })),
  );
  const spans = phaseStarts(days).group.map((start) => ({ ...start, label: writePhase(start) }));
  const found = (id: string) => ({ startedAt: new Date(Number(id)).toISOString() });
  const phases = splitIntoPhases(spans, together);
  const members = students.map((sessions) => ({
    sessions,
    phases: phaseRuns(sessions).map(asNamed),
  }));
  return {
    ...bothSources(together, phases, found, draw),
    reading: groupReading(members, phases, together),
    betweenCase: betweenCaseStatement(members),
  };
}

/** The class's phases have their labels written out; so have a student's, to be found by them. */
function asNamed(run: PhaseSessions): PhaseSessions {
  const named = parsePhase(run.label);
  return named === undefined ? run : { ...run, label: writePhase(named) };
}

const byMoment = (session: PhasedSession): SessionCount => ({
  ...session,
  sessionId: String(session.startedAt),
});

/** How a session is found in the file, from its id: by its line, or by its moment. */
type FindSession = (
  sessionId: string,
) => { readonly line: number } | { readonly startedAt: string };

function bothSources(
  sessions: readonly SessionCount[],
  phases: readonly PhaseSessions[],
  found: FindSession,
  draw?: StartDraw,
) {
  const of = (source: Source) => sourceStatistics(sessions, phases, source, found, draw);
  return {
    self: of("self"),
    observer: of("observer"),
    acrossSources: acrossSources(phases, draw),
    present: presentStatistics(sessions, phases),
  };
}

function sourceStatistics(
  sessions: readonly SessionCount[],
  phases: readonly PhaseSessions[],
  source: Source,
  found: FindSession,
  draw: StartDraw | undefined,
) {
  const own = sessions.filter((session) => session.source === source);
  if (own.length === 0) return null;
  const rowOf = new Map(own.map((session) => [session.sessionId, session]));
  const phaseOf = new Map(
    phases.flatMap(({ label, sessions: held }) =>
      held.map(({ sessionId }) => [sessionId, label] as const),
    ),
  );
  const analysis = analyseStudent(own, { source });
  return {
    ...analysis,
    sessions: analysis.sessions.map(({ sessionId, startedAt: _ms, ...session }) => ({
      ...found(sessionId),
      phase: phaseOf.get(sessionId) ?? "",
      minuteOfDay: rowOf.get(sessionId)?.minuteOfDay ?? null,
      subject: rowOf.get(sessionId)?.subject ?? "",
      ...session,
      missingBounds: missingBounds(session.counts),
    })),
    phaseRates: phases.map(({ kind, label, sessions: held }) => ({
      kind,
      label,
      pooled: pooledRate(held.filter((session) => session.source === source)),
    })),
    phases: summaryOf(seriesOf(phases, source), draw),
  };
}

/** What is going on now: within the last phase of the file, which has no other "today". */
function presentStatistics(sessions: readonly SessionCount[], phases: readonly PhaseSessions[]) {
  const spans = phases.flatMap(({ kind, label, sessions: held }) =>
    held[0] === undefined ? [] : [{ kind, label, startsOn: held[0].day }],
  );
  const present = presentTrend(spans, sessions, sessions.at(-1)?.day ?? "");
  return {
    ...present,
    logistic: presentLogistic(present, sessions),
    sensitivity: presentSensitivity(present, sessions),
  };
}

/** Only where a comparison has to go across sources: otherwise each source's own says it already. */
function acrossSources(phases: readonly PhaseSessions[], draw: StartDraw | undefined) {
  const { series, pairs } = comparedSeries(phases);
  const summary = phaseSummary(series, draw, pairs);
  return summary.comparisons.some(({ sourcesDiffer }) => sourcesDiffer)
    ? { phases: summary }
    : null;
}

/** Phases without a point by this source are left out, so that the rest stand side by side. */
function summaryOf(series: readonly PhaseSeries[], draw: StartDraw | undefined) {
  return phaseSummary(
    series.filter(({ points }) => points.length > 0),
    draw,
  );
}

/**
 * A phase is a run of sessions with the same phase field; the same field later is a new phase. Sessions
 * without one are in no phase and part no run.
 */
function phaseRuns(sessions: readonly PhasedSession[]): PhaseSessions[] {
  const runs: { kind: PhaseSessions["kind"]; label: string; sessions: SessionCount[] }[] = [];
  for (const session of sessions) {
    if (session.phaseKind === null) continue;
    const last = runs.at(-1);
    if (last !== undefined && last.label === session.phase) last.sessions.push(session);
    else runs.push({ kind: session.phaseKind, label: session.phase, sessions: [session] });
  }
  return runs;
}
