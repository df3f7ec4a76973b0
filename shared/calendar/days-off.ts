import { dayNumber } from "./calendar.ts";
import type { DayOff } from "./timetable.ts";

type Stretch = Pick<DayOff, "firstDay" | "lastDay">;

/**
 * The days of these stretches, as days since 1970.
 *
 * Example: [...dayNumbers([{ firstDay: "1970-01-02", lastDay: "1970-01-03" }])] // [1, 2]
 */
export function dayNumbers(stretches: readonly Stretch[]): ReadonlySet<number> {
  const days = new Set<number>();
  for (const { firstDay, lastDay } of stretches) {
    for (let day = dayNumber(firstDay); day <= dayNumber(lastDay); day += 1) days.add(day);
  }
  return days;
}

/**
 * Whether two moments lie farther apart than so many days, when the days off between them do not count.
 *
 * Example: isApart(0, 10, 7, new Set()) // true
 *
 * @param from days since 1970, with the time of day as fraction
 * @param to not before `from`
 * @param off as `dayNumbers` gives them
 */
export function isApart(from: number, to: number, most: number, off: ReadonlySet<number>): boolean {
  if (to - from <= most) return false;
  let counted = to - from;
  for (let day = Math.floor(from) + 1; day < Math.floor(to) && counted > most; day += 1) {
    if (off.has(day)) counted -= 1;
  }
  return counted > most;
}

/** So long a stretch of days off lies between two terms; common practice, no source. */
const betweenTerms = 10;

/**
 * Days off within a term: an outing, or a week of holidays with its weekends.
 *
 * Example: withinTerm([{ firstDay: "2026-12-21", lastDay: "2027-01-06" }]).length // 0
 */
export const withinTerm = (stretches: readonly Stretch[]): Stretch[] =>
  stretches.filter(
    ({ firstDay, lastDay }) => dayNumber(lastDay) - dayNumber(firstDay) + 1 < betweenTerms,
  );
