import type { CriterionLines } from "../analysis/phases/dual-criterion.ts";
import type { PhaseSeries, PhaseSummary } from "../analysis/phases/phase-summary.ts";
import type { Source } from "../record/session-count.ts";

/** The conservative dual-criterion lines of a baseline, over it and carried on into the next phase. */
export interface DrawnCriterion {
  readonly source: Source;
  /** What the two phases are called, and how the later one compares with the lines. */
  readonly from: Pick<PhaseSeries, "kind" | "label">;
  readonly to: Pick<PhaseSeries, "kind" | "label">;
  readonly above: number;
  readonly sessions: number;
  /** Sessions above both lines that would show a change; null for fewer than five sessions. */
  readonly needed: number | null;
  readonly decision: CriterionLines["decision"];
  /** Both lines at each session; heights may lie outside 0 to 1. */
  readonly points: readonly CriterionPoint[];
}

export interface CriterionPoint {
  /** Days since 1970. */
  readonly day: number;
  readonly level: number;
  readonly trend: number;
}

/**
 * The lines to draw, one pair for each baseline with a phase after it. Their steps are sessions, not
 * days, so on a calendar the trend line bends where sessions lie farther apart.
 *
 * @param series those that `summary` was made from, in its order
 */
export function criterionLines(
  series: readonly PhaseSeries[],
  { comparisons }: Pick<PhaseSummary, "comparisons">,
): DrawnCriterion[] {
  return comparisons.flatMap(({ from: fromAt, to: toAt, dualCriterion }) => {
    const from = series[fromAt];
    const to = series[toAt];
    if (from === undefined || to === undefined || from.kind !== "baseline") return [];
    if (dualCriterion.kind === "not-computable") return [];
    const { level, trendInA, trendInB, above, decision } = dualCriterion.conservative;
    const { needed } = dualCriterion;
    const heights = [...trendInA, ...trendInB];
    return {
      source: to.source,
      from: { kind: from.kind, label: from.label },
      to: { kind: to.kind, label: to.label },
      above,
      sessions: to.points.length,
      needed: needed.kind === "computed" ? needed.value : null,
      decision,
      points: [...from.points, ...to.points].map(({ day }, at) => ({
        day,
        level,
        trend: heights[at] ?? level,
      })),
    };
  });
}
