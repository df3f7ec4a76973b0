import { dayNumber, dayText, weekdayOf } from "../calendar/calendar.ts";
import { schoolDays } from "../calendar/school-days.ts";

interface DealDays {
  /** The school-local day on which is dealt, `YYYY-MM-DD`. */
  readonly today: string;
  /** Day on which the newest round began that stays as it is; null when none was held. */
  readonly heldFrom: string | null;
  /** The weekday on which a round begins, 1 for Monday to 7 for Sunday. */
  readonly weekday: number;
  /** How many rounds are dealt. */
  readonly rounds: number;
  /** Weekdays on which the group sits, 1 to 7. */
  readonly weekdays: readonly number[];
  readonly daysOff: readonly { readonly firstDay: string; readonly lastDay: string }[];
}

/** A year and a half of weeks without school would be a slip of the pen. */
const mostIdleWeeks = 80;

/**
 * On which days rounds begin: one each week on the chosen weekday; weeks in which the group never sits are
 * passed over. The first of a term has begun at once where this week still has a day of school.
 *
 * Example: dealDays({ today: "2026-11-25", heldFrom: null, weekday: 1, rounds: 2, weekdays: [1, 2, 3, 4, 5], daysOff: [] }) // ["2026-11-23", "2026-11-30"]
 *
 * @throws RangeError when a day is none of the calendar, or no week of a long time has school.
 */
export function dealDays(asked: DealDays): string[] {
  const { today, heldFrom, weekday, rounds, weekdays, daysOff } = asked;
  const now = dayNumber(today);
  const back = (weekdayOf(now) - weekday + 7) % 7;
  // Where a round is under way the next one comes with the next chosen weekday.
  let week = heldFrom === null ? now - back : now - back + 7;
  const days: string[] = [];
  for (let idle = 0; days.length < rounds; week += 7) {
    const from = dayText(Math.max(week, now));
    const sits = schoolDays({ from, to: dayText(week + 6), daysOff, weekdays }).length > 0;
    if (sits) days.push(dayText(week));
    else if (++idle > mostIdleWeeks)
      throw new RangeError(
        `weekdays must hold a day of school within ${mostIdleWeeks} weeks; got none.`,
      );
  }
  return days;
}
