import { type AgreementSummary, agreementSummary } from "../agreement/agreement-summary.ts";
import { level } from "../analysis/phases/level.ts";
import { type PhaseSessions, seriesOf } from "../analysis/phases/phase-series.ts";
import { recentChecks } from "../analysis/recent.ts";
import { inOrder } from "../analysis/trend.ts";
import type { CheckPair } from "../record/group-counts.ts";
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
  readonly recentAgreement: Pick<AgreementSummary, "percent" | "level" | "reading" | "mcNemar">;
  readonly sessionsSinceCheck: number | null;
  /** Mean rate of the first baseline by each source; null where that source has none. */
  readonly baseline: Readonly<Record<Source, number | null>>;
}

/** Gathers it for one student, or for a group from its added-up sessions and all its checks. */
export function adviceMaterial(
  sessions: readonly SessionCount[],
  checks: readonly CheckPair[],
  phases: readonly PhaseSessions[],
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
    sessions: own.map(slim),
    observed: observed.map(slim),
    recentAgreement: pickAgreement(recent),
    sessionsSinceCheck: lastChecked < 0 ? null : own.length - 1 - lastChecked,
    baseline: { self: baseline("self"), observer: baseline("observer") },
  };
}

const slim = ({ day, startedAt, on, off, missing }: SessionCount): AdviceSession => ({
  day,
  startedAt,
  on,
  off,
  missing,
});

const pickAgreement = ({ percent, level: step, reading, mcNemar }: AgreementSummary) => ({
  percent,
  level: step,
  reading,
  mcNemar,
});
