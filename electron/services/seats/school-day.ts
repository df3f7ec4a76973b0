import { schoolDays } from "../../../shared/calendar/school-days.ts";
import type { Store } from "../../store/store.ts";
import { todayOf, type WallClock } from "../base/wall-clock.ts";
import { closingMinutes, localMinutes, minutesOfDay } from "./closing-time.ts";

/**
 * The school day as seats keep to it: the periods of the groups that sit today. On a day off no group does,
 * and the day counts as one without periods.
 */
export function schoolDay(
  store: Pick<Store, "groups" | "privileges" | "daysOff">,
  clock: WallClock,
) {
  const now = () => localMinutes(clock.wallMs(), clock.offsetMinutes());
  const today = () => todayOf(clock);

  function sitsToday(weekdays: readonly number[]): boolean {
    const daysOff = store.daysOff.list();
    return schoolDays({ from: today(), to: today(), daysOff, weekdays }).length > 0;
  }

  function ends(): string[] {
    const inUse = new Set(store.groups.list(false).map(({ id }) => id));
    return store.groups
      .timetable()
      .filter(({ groupId, weekdays }) => inUse.has(groupId) && sitsToday(weekdays))
      .flatMap(({ groupId }) => store.privileges.periods(groupId))
      .flatMap(({ ends: end }) => (end === null ? [] : [end]));
  }

  return {
    today,

    /** Minutes of local time since 1970. */
    now,

    /** When seats that are opened now close, in minutes of local time since 1970. */
    closing(): number {
      const minutes = minutesOfDay(now());
      return now() + closingMinutes(ends(), minutes) - minutes;
    },

    /** The last period is over. */
    isOver: (): boolean => minutesOfDay(now()) >= closingMinutes(ends(), 0),
  };
}
