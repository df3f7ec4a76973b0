import {
  type AgreementSummary,
  agreementBy,
  agreementSummary,
} from "../../../shared/agreement/agreement-summary.ts";
import { dayNumber, dayText, mondayOf } from "../../../shared/analysis/calendar.ts";
import {
  clearConfidence,
  type Evidence,
  evidenceOfChange,
  probableConfidence,
} from "../../../shared/analysis/evidence.ts";
import { nap } from "../../../shared/analysis/phases/nap.ts";
import { seriesOf, splitIntoPhases } from "../../../shared/analysis/phases/phase-series.ts";
import {
  type PhaseSeries,
  type PhaseSummary,
  phaseSummary,
} from "../../../shared/analysis/phases/phase-summary.ts";
import { phasePoints } from "../../../shared/analysis/phases/points-standard.ts";
import {
  type Analysis,
  analyseStudent,
  type SessionReading,
} from "../../../shared/analysis/summary.ts";
import type { Interval, Source } from "../../../shared/analysis/types.ts";
import type { CheckPair, GroupCounts } from "../../../shared/api/analysis.ts";
import { type AdviceMaterial, adviceMaterial } from "./advice-material.ts";
import { asPair } from "./as-pair.ts";
import { dayNumbers } from "./days-off.ts";
import { drawOf } from "./drawn-start.ts";
import { type GraphPoint, graphPoints } from "./graph-points.ts";
import { heldSessions } from "./held-sessions.ts";
import { type PhaseLines, phaseLines } from "./phase-lines.ts";
import { phasesFor } from "./phase-spans.ts";
import { sessionsOf } from "./session-counts.ts";

/** Agreement of one school week, by its Monday. */
export interface WeekAgreement {
  readonly monday: string;
  readonly summary: AgreementSummary;
}

/** Everything that one student's page shows, computed at once. */
export interface StudentReading {
  readonly studentId: string;
  /** The student's own records. */
  readonly self: Analysis;
  /** The newest session with marks; of an observer's when nobody recorded. */
  readonly latest: { readonly source: Source; readonly session: SessionReading } | null;
  readonly points: readonly GraphPoint[];
  readonly lines: readonly PhaseLines[];
  readonly phases: PhaseSummary;
  /** How firmly each comparison of `phases` may be worded; null where there is nothing to compare. */
  readonly phaseEvidence: readonly (Evidence | null)[];
  readonly agreement: AgreementSummary;
  readonly agreementByWeek: readonly WeekAgreement[];
  /** Two observers' records of this student; null when nobody watched a second time. */
  readonly observers: AgreementSummary | null;
  readonly advice: AdviceMaterial;
}

/** Reads one student. Under five sessions the statistics say what is missing instead of a number. */
export function readStudent(counts: GroupCounts, studentId: string): StudentReading {
  const sessions = sessionsOf(counts, studentId);
  const phases = phasesFor(counts.phases, studentId);
  const starts = phases.map(({ startsOn }) => startsOn);
  const off = dayNumbers(counts.daysOff);
  const self = analyseStudent(sessions, { source: "self" });
  const observer = analyseStudent(sessions, { source: "observer" });
  const held = (source: Source) => heldSessions(counts, source);
  const series = seriesOf(splitIntoPhases(phases, sessions), "observer-first").filter(
    ({ points }) => points.length > 0,
  );
  const summary = phaseSummary(series, drawOf(phases) ?? undefined);
  const checks = counts.checks.filter((check) => check.studentId === studentId);
  const seconds = counts.observerPairs.filter((pair) => pair.studentId === studentId);
  return {
    studentId,
    self,
    latest: newest(self.sessions, "self") ?? newest(observer.sessions, "observer"),
    points: [
      ...graphPoints(self.sessions, "self", held("self"), starts, off),
      ...graphPoints(observer.sessions, "observer", held("observer"), starts, off),
    ],
    lines: [...phaseLines(phases, sessions, "self"), ...phaseLines(phases, sessions, "observer")],
    phases: summary,
    phaseEvidence: series.slice(1).map((later, at) => evidenceOfPhases(series[at], later)),
    agreement: agreementSummary(checks.map(asPair)),
    agreementByWeek: agreementByWeek(checks),
    observers: seconds.length === 0 ? null : agreementSummary(seconds),
    advice: adviceMaterial(sessions, checks, summary),
  };
}

/**
 * How firmly a difference between two phases may be worded: the one rule for wording, applied to the
 * overlap of all pairs (NAP) against one half. Null where a phase has fewer than three points.
 */
function evidenceOfPhases(earlier: PhaseSeries | undefined, later: PhaseSeries): Evidence | null {
  const values = ({ points }: PhaseSeries) => points.map(({ value }) => value);
  if (earlier === undefined) return null;
  if (earlier.points.length < phasePoints.fewest || later.points.length < phasePoints.fewest) {
    return null;
  }
  const around = (confidence: number): Interval | null => {
    const found = nap(values(earlier), values(later), confidence);
    if (found.kind === "not-computable") return null;
    return { lower: found.interval.lower - 0.5, upper: found.interval.upper - 0.5 };
  };
  const wide = around(clearConfidence);
  const narrow = around(probableConfidence);
  return wide === null || narrow === null ? null : evidenceOfChange(wide, narrow);
}

function newest(sessions: readonly SessionReading[], source: Source) {
  const session = sessions.findLast(({ rate }) => rate.kind === "enough");
  return session === undefined ? null : { source, session };
}

function agreementByWeek(checks: readonly CheckPair[]): WeekAgreement[] {
  const pairs = checks.map((check) => ({
    ...asPair(check),
    monday: dayText(mondayOf(dayNumber(check.day))),
  }));
  return [...agreementBy(pairs, ({ monday }) => monday)]
    .map(([monday, summary]) => ({ monday, summary }))
    .sort((a, b) => (a.monday < b.monday ? -1 : 1));
}
