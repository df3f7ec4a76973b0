import {
  comparedSeries,
  type PhaseSessions,
  seriesOf,
} from "../../shared/analysis/phases/phase-series.ts";
import {
  type PhaseSeries,
  phaseSummary,
  type StartDraw,
} from "../../shared/analysis/phases/phase-summary.ts";
import { pooledRate } from "../../shared/analysis/pooled.ts";
import { missingBounds } from "../../shared/analysis/rate.ts";
import { analyseStudent } from "../../shared/analysis/summary.ts";
import type { SessionCount, Source } from "../../shared/analysis/types.ts";
import type { PhasedSession } from "./session-rows.ts";

/** Everything that one student's sessions say; self-records and observer data are never pooled. */
export function studentStatistics(sessions: readonly PhasedSession[], draw?: StartDraw) {
  const phases = phaseRuns(sessions);
  return {
    self: sourceStatistics(sessions, phases, "self", draw),
    observer: sourceStatistics(sessions, phases, "observer", draw),
    acrossSources: acrossSources(phases, draw),
  };
}

function sourceStatistics(
  sessions: readonly PhasedSession[],
  phases: readonly PhaseSessions[],
  source: Source,
  draw: StartDraw | undefined,
) {
  const own = sessions.filter((session) => session.source === source);
  if (own.length === 0) return null;
  const rowOf = new Map(own.map((session) => [session.sessionId, session]));
  const analysis = analyseStudent(own, { source });
  return {
    ...analysis,
    sessions: analysis.sessions.map((session) => ({
      line: Number(session.sessionId),
      phase: rowOf.get(session.sessionId)?.phase ?? "",
      minuteOfDay: rowOf.get(session.sessionId)?.minuteOfDay ?? null,
      day: session.day,
      counts: session.counts,
      rate: session.rate,
      response: session.response,
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

/** A phase is a run of sessions with the same phase field; the same field later is a new phase. */
function phaseRuns(sessions: readonly PhasedSession[]): PhaseSessions[] {
  const runs: { kind: PhaseSessions["kind"]; label: string; sessions: SessionCount[] }[] = [];
  for (const session of sessions) {
    const last = runs.at(-1);
    if (last !== undefined && last.label === session.phase) last.sessions.push(session);
    else runs.push({ kind: session.phaseKind, label: session.phase, sessions: [session] });
  }
  return runs;
}
