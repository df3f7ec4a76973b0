import { dayNumber, weekdayOf } from "../../../shared/calendar/calendar.ts";
import type { GroupWeekdays } from "../../../shared/calendar/timetable.ts";

/**
 * Parts groups into those that sit on a day by their timetable and the others, each in the given order.
 * A group that no timetable knows sits.
 */
export function bySitting<Group extends { readonly id: string }>(
  groups: readonly Group[],
  timetable: readonly GroupWeekdays[],
  day: string,
): { readonly sitting: Group[]; readonly others: Group[] } {
  const weekday = weekdayOf(dayNumber(day));
  const away = new Set(
    timetable.filter(({ weekdays }) => !weekdays.includes(weekday)).map(({ groupId }) => groupId),
  );
  return {
    sitting: groups.filter(({ id }) => !away.has(id)),
    others: groups.filter(({ id }) => away.has(id)),
  };
}
