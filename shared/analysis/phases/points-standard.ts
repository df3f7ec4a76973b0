/** How a phase's number of points stands to the published standard. */
export type PointsStandard = "meets" | "with-reservations" | "does-not-meet";

/** Fewest points of a phase, and the number wanted. */
export const phasePoints = { fewest: 3, wanted: 5 } as const;

/**
 * Five points or more meet the single-case design standard, three or four meet it with reservations,
 * fewer do not.
 *
 * Source: What Works Clearinghouse, Single-Case Designs Technical Documentation 1.0 (Kratochwill et al.
 * 2010), the counts from memory.
 */
export function pointsStandard(points: number): PointsStandard {
  if (points >= phasePoints.wanted) return "meets";
  return points >= phasePoints.fewest ? "with-reservations" : "does-not-meet";
}
