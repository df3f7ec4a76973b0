import { type AgreementSummary, agreementSummary } from "../agreement/agreement-summary.ts";
import { comparedSeries, splitIntoPhases } from "../analysis/phases/phase-series.ts";
import { type PhaseSummary, phaseSummary } from "../analysis/phases/phase-summary.ts";
import {
  type PresentTrend,
  presentLogistic,
  presentTrend,
} from "../analysis/phases/present-trend.ts";
import { recentChecks } from "../analysis/recent.ts";
import {
  type RateReading,
  type RecordReading,
  readPhases,
  readPresent,
  readRates,
  sessionsBy,
} from "../analysis/statements/record-reading.ts";
import {
  type Analysis,
  analyseStudent,
  overviewStudent,
  type SessionReading,
} from "../analysis/summary.ts";
import type { WeekRate } from "../analysis/weeks.ts";
import { dayNumbers } from "../calendar/days-off.ts";
import type { GroupCounts } from "../record/group-counts.ts";
import type { Source } from "../record/session-count.ts";
import type { LogisticTrend } from "../statistics/logistic.ts";
import type { Result } from "../statistics/result.ts";
import { type AdviceMaterial, adviceMaterial } from "./advice-material.ts";
import { agreementByWeek, type WeekAgreement } from "./agreement-weeks.ts";
import { asPair } from "./as-pair.ts";
import { criterionLines, type DrawnCriterion } from "./criterion-lines.ts";
import { drawOf, keptDraw } from "./drawn/drawn-start.ts";
import { readWithdrawal, type WithdrawalReading } from "./drawn/withdrawal-reading.ts";
import { type GraphPoint, graphPoints } from "./graph-points.ts";
import { heldSessions } from "./held-sessions.ts";
import { type PhaseLines, phaseLines } from "./phase-lines.ts";
import { phasesFor } from "./phase-spans.ts";
import { type RecentCorrected, recentCorrected } from "./recent-corrected.ts";
import { type SaidSensitivity, saidSensitivity } from "./said-sensitivity.ts";
import { weeksAsSaid } from "./said-weeks.ts";
import { sessionsOf } from "./session-counts.ts";
import { type WatchedTwice, watchedTwiceIn } from "./watched-twice.ts";

/** Everything that one student's page shows, computed at once. */
export interface StudentReading {
  readonly studentId: string;
  /** The student's own records. */
  readonly self: Analysis;
  /** What may be said in a headline. */
  readonly said: RecordReading;
  /** The rates of the student's own records. */
  readonly rates: RateReading;
  /** Whether missing marks could change what is said of trend and week. */
  readonly saidSensitivity: SaidSensitivity;
  /** School weeks, with intervals that allow for alike neighbours. */
  readonly weeks: readonly WeekRate[];
  /** The trend within the present phase by Theil-Sen and Mann-Kendall. */
  readonly present: PresentTrend;
  /** Log odds a week within the present phase. */
  readonly presentLogistic: Result<LogisticTrend>;
  /** The newest session with marks; of an observer's when nobody recorded. */
  readonly latest: { readonly source: Source; readonly session: SessionReading } | null;
  readonly points: readonly GraphPoint[];
  readonly lines: readonly PhaseLines[];
  readonly phases: PhaseSummary;
  /** How often the program's first day was drawn until it was kept; 0 when it was chosen. */
  readonly timesDrawn: number;
  readonly criterion: readonly DrawnCriterion[];
  /** What a program shows that was taken away and came back on drawn days; null without such a draw. */
  readonly withdrawal: WithdrawalReading | null;
  /** How much of each of `phases` two observers watched. */
  readonly watchedTwice: readonly WatchedTwice[];
  readonly agreement: AgreementSummary;
  /** Agreement over the recent sessions alone, by which flags and advice go. */
  readonly recentAgreement: AgreementSummary;
  readonly agreementByWeek: readonly WeekAgreement[];
  /** The recent record as the adult's eye would have it, where there are enough checks of both kinds. */
  readonly corrected: RecentCorrected;
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
  const observer = overviewStudent(sessions, { source: "observer" });
  const held = (source: Source) => heldSessions(counts, source);
  const split = splitIntoPhases(phases, sessions);
  const { series, pairs } = comparedSeries(split);
  const summary = phaseSummary(series, drawOf(phases) ?? undefined, pairs);
  const checks = counts.checks.filter((check) => check.studentId === studentId);
  const seconds = counts.observerPairs.filter((pair) => pair.studentId === studentId);
  const present = presentTrend(phases, sessions, counts.today);
  const said = readPresent(present.phase, sessions);
  return {
    studentId,
    self,
    present,
    said: { ...said, phases: readPhases(split) },
    rates: readRates(sessions, split, "self"),
    saidSensitivity: saidSensitivity(said, sessions),
    weeks: weeksAsSaid(self.weeks, sessionsBy(sessions, "self")),
    presentLogistic: presentLogistic(present, sessions),
    latest: newest(self.sessions, "self") ?? newest(observer.sessions, "observer"),
    points: [
      ...graphPoints(self.sessions, "self", held("self"), starts, off),
      ...graphPoints(observer.sessions, "observer", held("observer"), starts, off),
    ],
    lines: [...phaseLines(phases, sessions, "self"), ...phaseLines(phases, sessions, "observer")],
    phases: summary,
    timesDrawn: keptDraw(phases)?.times ?? 0,
    criterion: criterionLines(series, summary),
    withdrawal: readWithdrawal(phases, sessions),
    watchedTwice: watchedTwiceIn(series, split, seconds),
    agreement: agreementSummary(checks.map(asPair)),
    recentAgreement: agreementSummary(recentChecks(sessions, checks).map(asPair)),
    agreementByWeek: agreementByWeek(checks),
    corrected: recentCorrected(sessions, checks),
    observers: seconds.length === 0 ? null : agreementSummary(seconds),
    advice: adviceMaterial(
      sessions,
      checks,
      split,
      counts.work.filter((work) => work.studentId === studentId),
    ),
  };
}

function newest(sessions: readonly SessionReading[], source: Source) {
  const session = sessions.findLast(({ rate }) => rate.kind === "enough");
  return session === undefined ? null : { source, session };
}
