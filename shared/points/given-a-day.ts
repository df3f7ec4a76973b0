/** A press of points, or one that took such a press back. */
export interface GivenLine {
  readonly studentId: string;
  readonly day: string;
  readonly amount: number;
}

/** Days over which given points are counted. */
const daysCounted = 10;

/**
 * Points that each student was given on a day, on average over the newest ten of the days that had points.
 * Empty without a day.
 *
 * Example: givenADay([{ studentId, day, amount: 4 }], [day, nextDay]).get(studentId) // 2
 *
 * @param given presses of points given, and their reversals
 * @param days the days on which the group had points, in any order
 */
export function givenADay(
  given: readonly GivenLine[],
  days: readonly string[],
): ReadonlyMap<string, number> {
  const newest = new Set([...new Set(days)].sort().slice(-daysCounted));
  const sums = new Map<string, number>();
  for (const { studentId, day, amount } of given) {
    if (newest.has(day)) sums.set(studentId, (sums.get(studentId) ?? 0) + amount);
  }
  return new Map([...sums].map(([id, sum]) => [id, Math.max(0, sum) / newest.size]));
}
