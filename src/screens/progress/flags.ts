import type { AgreementSummary } from "../../../shared/agreement/agreement-summary.ts";
import type { Glance } from "../../../shared/analysis/summary.ts";
import { fewestSessionsForTrend } from "../../../shared/analysis/trend.ts";

/** What the class view points out about a student, with the numbers behind it. */
export type Flag =
  | { readonly kind: "few-sessions"; readonly have: number; readonly need: number }
  | { readonly kind: "few-answers"; readonly share: number }
  | { readonly kind: "low-agreement"; readonly share: number; readonly compared: number }
  | { readonly kind: "records-flatter"; readonly compared: number }
  | { readonly kind: "rate-falling"; readonly pointsPerWeek: number; readonly sure: boolean };

/** Under this share of answered cues a rate says little. The same half as in the advice. */
const fewestAnswered = 0.5;

/** Flags in a fixed order; none is a judgement of the student. */
export function flagsOf(
  glance: Pick<Glance, "sessionsWithMarks" | "response" | "trend">,
  agreement: Pick<AgreementSummary, "percent" | "reading" | "mcNemar"> | null,
): Flag[] {
  const flags: Flag[] = [];
  const { sessionsWithMarks, response, trend } = glance;
  if (sessionsWithMarks < fewestSessionsForTrend) {
    flags.push({ kind: "few-sessions", have: sessionsWithMarks, need: fewestSessionsForTrend });
  }
  if (response.kind === "enough" && response.rate < fewestAnswered) {
    flags.push({ kind: "few-answers", share: response.rate });
  }
  if (agreement?.percent.kind === "computed" && agreement.reading !== "too-few-checks") {
    const { value, compared } = agreement.percent;
    if (agreement.reading === "below-80") {
      flags.push({ kind: "low-agreement", share: value, compared });
    } else if (agreement.mcNemar.direction === "first-says-on-more") {
      flags.push({ kind: "records-flatter", compared });
    }
  }
  if (trend.kind === "enough" && trend.direction === "down" && trend.evidence !== "cannot-tell") {
    flags.push({
      kind: "rate-falling",
      pointsPerWeek: -trend.slopePointsPerWeek,
      sure: trend.evidence === "clear",
    });
  }
  return flags;
}
