import { type AgreementSummary, recordsFlatter } from "../agreement/agreement-summary.ts";
import type { PhaseSpan } from "../analysis/phases/phase-series.ts";
import type { LastingFall } from "../analysis/statements/lasting-fall.ts";
import type { Overview } from "../analysis/summary.ts";
import { fewestSessionsForTrend } from "../analysis/trend.ts";
import type { Interval } from "../statistics/result.ts";
import { isShort } from "./short-trend.ts";

/** What the class view points out about a student, with the numbers behind it. */
export type Flag =
  | { readonly kind: "few-sessions"; readonly have: number; readonly need: number }
  | { readonly kind: "few-answers"; readonly share: number }
  | { readonly kind: "low-agreement"; readonly share: number; readonly compared: number }
  | { readonly kind: "records-flatter"; readonly compared: number }
  | {
      readonly kind: "rate-falling";
      /** The newest sessions alone, all of the present phase, or all there are where none has begun. */
      readonly over: LastingFall["over"] | "all";
      readonly sessions: number;
      /** By how much a week, above 0, and its 95 % interval. */
      readonly pointsPerWeek: number;
      readonly interval: Interval;
      /** Over too few days to say how much a week that is. */
      readonly short: boolean;
    };

/** Under this share of answered cues a rate says little. The same half as in the advice. */
const fewestAnswered = 0.5;

/**
 * Flags in a fixed order; none is a judgement of the student. A falling rate is pointed out only where it
 * lasts: see `lastingFall`.
 *
 * @param glance with the share of answered cues in the recent sessions (see `recentSessions`)
 * @param agreement of the recent sessions too
 */
export function flagsOf(
  glance: Pick<Overview, "sessionsWithMarks"> & { readonly recentResponse: Overview["response"] },
  { phase, fall }: { readonly phase: PhaseSpan | null; readonly fall: LastingFall | null },
  agreement: Pick<AgreementSummary, "percent" | "level" | "reading" | "mcNemar"> | null,
): Flag[] {
  const flags: Flag[] = [];
  const { sessionsWithMarks, recentResponse } = glance;
  if (sessionsWithMarks < fewestSessionsForTrend) {
    flags.push({ kind: "few-sessions", have: sessionsWithMarks, need: fewestSessionsForTrend });
  }
  if (recentResponse.kind === "enough" && recentResponse.rate < fewestAnswered) {
    flags.push({ kind: "few-answers", share: recentResponse.rate });
  }
  if (agreement?.percent.kind === "computed" && agreement.level !== "too-few-checks") {
    const { value, compared } = agreement.percent;
    if (agreement.reading.reason === "below-80") {
      flags.push({ kind: "low-agreement", share: value, compared });
    } else if (agreement.reading.match === "low" || recordsFlatter(agreement)) {
      flags.push({ kind: "records-flatter", compared });
    }
  }
  if (fall !== null) {
    const { pointsPerWeek, interval, sessions } = fall.trend;
    flags.push({
      kind: "rate-falling",
      over: phase === null && fall.over === "phase" ? "all" : fall.over,
      sessions,
      pointsPerWeek: -pointsPerWeek,
      interval: { lower: -interval.upper, upper: -interval.lower },
      short: isShort(fall.trend),
    });
  }
  return flags;
}
