import { dayNumber } from "./calendar.ts";
import type { DayOff } from "./timetable.ts";

type Stretch = Pick<DayOff, "firstDay" | "lastDay">;

/** The days of these stretches, as days since 1970. */
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

/** Days off within a term: an outing, or a week of holidays with its weekends. */
export const withinTerm = (stretches: readonly Stretch[]): Stretch[] =>
  stretches.filter(
    ({ firstDay, lastDay }) => dayNumber(lastDay) - dayNumber(firstDay) + 1 < betweenTerms,
  );
