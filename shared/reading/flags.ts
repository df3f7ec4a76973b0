import { type AgreementSummary, recordsFlatter } from "../agreement/agreement-summary.ts";
import {
  type PresentFall,
  type PresentTrend,
  presentFall,
} from "../analysis/phases/present-trend.ts";
import type { Overview } from "../analysis/summary.ts";
import { fewestSessionsForTrend } from "../analysis/trend.ts";
import { isShort } from "./short-trend.ts";

/** What the class view points out about a student, with the numbers behind it. */
export type Flag =
  | { readonly kind: "few-sessions"; readonly have: number; readonly need: number }
  | { readonly kind: "few-answers"; readonly share: number }
  | { readonly kind: "low-agreement"; readonly share: number; readonly compared: number }
  | { readonly kind: "records-flatter"; readonly compared: number }
  | {
      readonly kind: "rate-falling";
      readonly over: PresentFall["over"];
      readonly sessions: number;
      readonly pointsPerWeek: number;
      /** Over too few days to say how much a week that is. */
      readonly short: boolean;
      readonly sure: boolean;
    };

/** Under this share of answered cues a rate says little. The same half as in the advice. */
const fewestAnswered = 0.5;

/**
 * Flags in a fixed order; none is a judgement of the student.
 *
 * @param glance with the share of answered cues in the recent sessions (see `recentSessions`)
 * @param agreement of the recent sessions too
 */
export function flagsOf(
  glance: Pick<Overview, "sessionsWithMarks"> & { readonly recentResponse: Overview["response"] },
  present: PresentTrend,
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
  const fall = presentFall(present);
  if (fall !== null) {
    flags.push({
      kind: "rate-falling",
      over: fall.over,
      sessions: fall.trend.sessions,
      pointsPerWeek: -fall.trend.slopePointsPerWeek,
      short: isShort(fall.trend),
      sure: fall.trend.evidence === "clear",
    });
  }
  return flags;
}
