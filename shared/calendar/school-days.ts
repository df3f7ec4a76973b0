import { dayNumber, dayText, weekdayOf } from "./calendar.ts";

/** Monday to Friday, as in ISO 8601. */
export const schoolWeek: readonly number[] = [1, 2, 3, 4, 5];

export interface SchoolSpan {
  /** First and last day, `YYYY-MM-DD`, both included. */
  readonly from: string;
  readonly to: string;
  /** Stretches of days without school, both ends included. */
  readonly daysOff: readonly { readonly firstDay: string; readonly lastDay: string }[];
  /** Weekdays that count, 1 for Monday to 7 for Sunday. */
  readonly weekdays: readonly number[];
}

/**
 * The days of a span on which there is school, `YYYY-MM-DD`, in order. Empty when the span ends before
 * it starts or has no such day.
 *
 * Example: schoolDays({ from: "2026-11-26", to: "2026-12-01", daysOff: [], weekdays: [1, 2, 3, 4, 5] }) // ["2026-11-26", "2026-11-27", "2026-11-30", "2026-12-01"]
 *
 * @throws RangeError when an end of the span is not a day of the calendar
 */
export function schoolDays({ from, to, daysOff, weekdays }: SchoolSpan): string[] {
  const days: string[] = [];
  for (let at = dayNumber(from); at <= dayNumber(to); at += 1) {
    const day = dayText(at);
    // Days written YYYY-MM-DD sort as text.
    const isOff = daysOff.some(({ firstDay, lastDay }) => firstDay <= day && day <= lastDay);
    if (!isOff && weekdays.includes(weekdayOf(at))) days.push(day);
  }
  return days;
}
