import {
  type MultipleBaselineStanding,
  multipleBaselineStanding,
} from "../../analysis/designs/multiple-baseline-standard.ts";
import { type StaggeredCase, staggeredTest } from "../../analysis/designs/staggered-test.ts";
import { type PhaseSessions, splitIntoPhases } from "../../analysis/phases/phase-series.ts";
import type { DayPoint } from "../../analysis/phases/trend.ts";
import { ratePoints } from "../../analysis/statements/points.ts";
import { phasesToCompare, sessionsBy } from "../../analysis/statements/record-reading.ts";
import type { GroupCounts } from "../../record/group-counts.ts";
import type { SessionCount } from "../../record/session-count.ts";
import { staggerSize } from "./drawn-stagger.ts";
import { drawOf, keptDraw } from "./drawn-start.ts";

/** What starts that were drawn one after the other show about cause. */
export interface StaggeredReading {
  /** Students with a start of their own that was drawn and kept. */
  readonly students: number;
  readonly test: ReturnType<typeof staggeredTest>;
  readonly standing: MultipleBaselineStanding;
  /** A start was drawn more than once until it was kept: the test is not exact. */
  readonly redrawn: boolean;
}

/**
 * Reads the students whose own start was drawn; null for fewer than three of them. Each student's points are
 * those of the source by which the baseline would be compared with the program.
 *
 * Source: see `staggeredTest`. Example: readStaggered({ phases: [] }, []) // null
 */
export function readStaggered(
  { phases }: Pick<GroupCounts, "phases">,
  students: readonly { readonly studentId: string; readonly sessions: readonly SessionCount[] }[],
): StaggeredReading | null {
  const found = students.flatMap(({ studentId, sessions }) => {
    const own = phases
      .filter((phase) => phase.studentId === studentId)
      .toSorted((a, b) => (a.startsOn < b.startsOn ? -1 : 1));
    const draw = drawOf(own);
    if (draw === null) return [];
    const baseline = own.findIndex(({ kind }) => kind === "baseline");
    const split = splitIntoPhases(own, sessions).slice(baseline, baseline + 2);
    const points = pointsOf(split);
    return { ...draw, points, times: keptDraw(own)?.times ?? 1 };
  });
  if (found.length < staggerSize.fewest) return null;
  return {
    students: found.length,
    test: staggeredTest(found satisfies readonly StaggeredCase[]),
    standing: multipleBaselineStanding(
      found.map(({ points, day }) => ({
        start: day,
        before: points.filter((point) => point.day < day).length,
        after: points.filter((point) => point.day >= day).length,
      })),
    ),
    redrawn: found.some(({ times }) => times > 1),
  };
}

/** Rates of baseline and program together, by one source; none where different people recorded them. */
function pointsOf(split: readonly PhaseSessions[]): DayPoint[] {
  const [pair] = phasesToCompare(split);
  if (pair?.compared.sourcesDiffer) return [];
  const source = pair?.sources[0] ?? "self";
  return split.flatMap(({ sessions }) =>
    ratePoints(sessionsBy(sessions, source)).map(({ day, on, marks }) => ({
      day,
      value: on / marks,
    })),
  );
}
