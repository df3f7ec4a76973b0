import { type WorkTrend, workTrend } from "../advice/work-done.ts";
import { type AgreementSummary, agreementSummary } from "../agreement/agreement-summary.ts";
import { level } from "../analysis/phases/level.ts";
import { type PhaseSessions, seriesOf } from "../analysis/phases/phase-series.ts";
import { recentChecks } from "../analysis/recent.ts";
import { inOrder } from "../analysis/trend.ts";
import type { CheckPair, WorkDone } from "../record/group-counts.ts";
import type { SessionCount, Source } from "../record/session-count.ts";
import { asPair } from "./as-pair.ts";

export type AdviceSession = Pick<SessionCount, "day" | "startedAt" | "on" | "off" | "missing">;

/** What the advice needs besides the program. */
export interface AdviceMaterial {
  /** Self-recorded sessions, oldest first. */
  readonly sessions: readonly AdviceSession[];
  /** Sessions an observer recorded, oldest first; past the last cue, probes say how the habit holds. */
  readonly observed: readonly AdviceSession[];
  /** Agreement over the newest sessions only: an old match proves nothing. */
  readonly recentAgreement: Pick<
    AgreementSummary,
    "table" | "percent" | "level" | "reading" | "mcNemar"
  >;
  readonly sessionsSinceCheck: number | null;
  /** Mean rate of the first baseline by each source; null where that source has none. */
  readonly baseline: Readonly<Record<Source, number | null>>;
  /** Work done lately and before; null where too little was written down. */
  readonly work: WorkTrend | null;
}

/**
 * Gathers it for one student, or for a group from its added-up sessions, all its checks and all its work.
 *
 * Example: adviceMaterial(sessions, checks, phases, work).sessionsSinceCheck // 2
 */
export function adviceMaterial(
  sessions: readonly SessionCount[],
  checks: readonly CheckPair[],
  phases: readonly PhaseSessions[],
  work: readonly WorkDone[],
): AdviceMaterial {
  const own = inOrder(sessions.filter(({ source }) => source === "self"));
  const observed = inOrder(sessions.filter(({ source }) => source === "observer"));
  const checked = new Set(
    checks.filter(({ seen }) => seen !== "unseen").map(({ sessionId }) => sessionId),
  );
  const lastChecked = own.findLastIndex(({ sessionId }) => checked.has(sessionId));
  const recent = agreementSummary(recentChecks(sessions, checks).map(asPair));
  // Both sources, whichever of them the phases are compared by.
  const baselines = phases.filter(({ kind }) => kind === "baseline");
  const baseline = (by: Source) => {
    const held = seriesOf(baselines, by).find(({ points }) => points.length > 0);
    const found = level((held?.points ?? []).map(({ value }) => value));
    return found.kind === "computed" ? found.mean : null;
  };
  return {
    sessions: own.map(adviceSession),
    observed: observed.map(adviceSession),
    recentAgreement: pickAgreement(recent),
    sessionsSinceCheck: lastChecked < 0 ? null : own.length - 1 - lastChecked,
    baseline: { self: baseline("self"), observer: baseline("observer") },
    work: workTrend(workShares(inOrder(sessions), work)),
  };
}

/** Share of the assigned items that were completed, session by session, in the order of the sessions. */
function workShares(sessions: readonly SessionCount[], work: readonly WorkDone[]): number[] {
  const bySession = Map.groupBy(work, ({ sessionId }) => sessionId);
  const ids = new Set(sessions.map(({ sessionId }) => sessionId));
  return [...ids].flatMap((id) => {
    const own = bySession.get(id) ?? [];
    const assigned = own.reduce((sum, done) => sum + done.assigned, 0);
    const completed = own.reduce((sum, done) => sum + done.completed, 0);
    return assigned === 0 ? [] : Math.min(1, completed / assigned);
  });
}

/** What the advice needs of a session. Example: adviceSession(session).day // "2026-03-09" */
export const adviceSession = ({
  day,
  startedAt,
  on,
  off,
  missing,
}: SessionCount): AdviceSession => ({
  day,
  startedAt,
  on,
  off,
  missing,
});

const pickAgreement = ({ table, percent, level: step, reading, mcNemar }: AgreementSummary) => ({
  table,
  percent,
  level: step,
  reading,
  mcNemar,
});
