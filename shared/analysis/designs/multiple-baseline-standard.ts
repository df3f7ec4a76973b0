import { type PointsStandard, pointsStandard } from "../phases/points-standard.ts";

/** What a standard asks of a multiple baseline: phases, and different days on which a program started. */
const multipleBaselineNeeds = { phases: 6, starts: 3 } as const;

export interface MultipleBaselineStanding {
  /** Phases that hold points: a baseline and a program for each case. */
  readonly phases: number;
  /** Different days on which a program began. */
  readonly starts: number;
  /** The phase with the fewest points. */
  readonly fewestPoints: number;
  readonly standard: PointsStandard;
}

/**
 * How a multiple baseline stands to the standard by design type: six phases or more, three different starts
 * or more, five points in each phase, or three with reservations.
 *
 * Source: What Works Clearinghouse, Procedures and Standards Handbook 5.0 (2022), from memory. Six phases of
 * five points were asked by version 4.0 already, as a position statement of the Council for Exceptional
 * Children's Division for Research (2019, cecdr.org, read) says.
 *
 * @param cases points before and from the start on, and the day of the start
 *
 * Example: multipleBaselineStanding([]).standard // "does-not-meet"
 */
export function multipleBaselineStanding(
  cases: readonly { readonly before: number; readonly after: number; readonly start: number }[],
): MultipleBaselineStanding {
  const held = cases.filter(({ before, after }) => before > 0 && after > 0);
  const phases = 2 * held.length;
  const starts = new Set(held.map(({ start }) => start)).size;
  const fewestPoints = held.reduce(
    (least, { before, after }) => Math.min(least, before, after),
    held.length === 0 ? 0 : Number.POSITIVE_INFINITY,
  );
  const enough = phases >= multipleBaselineNeeds.phases && starts >= multipleBaselineNeeds.starts;
  return {
    phases,
    starts,
    fewestPoints,
    standard: enough ? pointsStandard(fewestPoints) : "does-not-meet",
  };
}
