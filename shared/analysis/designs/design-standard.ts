import { type PointsStandard, pointsStandard } from "../phases/points-standard.ts";

/** Phases that a withdrawal is asked for. */
const withdrawalPhases = 4;

/** Points under each condition that an alternation is asked for, and with reservations. */
const alternationPoints = { wanted: 5, fewest: 4 } as const;

/**
 * How a withdrawal stands to the standard by design type: four phases or more by turns, five points in each,
 * or three with reservations.
 *
 * Source: What Works Clearinghouse, Procedures and Standards Handbook 5.0 (2022), from memory.
 *
 * @param points of each phase, in order of time
 *
 * Example: withdrawalStandard([5, 6, 5, 3]) // "with-reservations"
 */
export const withdrawalStandard = (points: readonly number[]): PointsStandard =>
  points.length < withdrawalPhases ? "does-not-meet" : pointsStandard(Math.min(...points));

/**
 * How two conditions that take turns stand to the standard by design type: five points or more under each, with
 * at most two in a row, or four with reservations.
 *
 * Source: as for `withdrawalStandard`, from memory.
 *
 * Example: alternationStandard({ A: 5, B: 4 }) // "with-reservations"
 */
export function alternationStandard({ A, B }: { A: number; B: number }): PointsStandard {
  const fewest = Math.min(A, B);
  if (fewest >= alternationPoints.wanted) return "meets";
  return fewest >= alternationPoints.fewest ? "with-reservations" : "does-not-meet";
}
