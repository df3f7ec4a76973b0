import { localDay } from "../../../shared/calendar/local-day.ts";
import type { Store } from "../../store/store.ts";
import type { DesktopClock } from "../base/clock.ts";
import { closingMinutes, localMinutes, minutesOfDay } from "./closing-time.ts";

/** The school day as seats keep to it, from the periods that are set. */
export function schoolDay(
  store: Pick<Store, "groups" | "privileges">,
  clock: Pick<DesktopClock, "wallMs" | "offsetMinutes">,
) {
  const now = () => localMinutes(clock.wallMs(), clock.offsetMinutes());

  function ends(): string[] {
    return store.groups
      .list(false)
      .flatMap(({ id }) => store.privileges.periods(id))
      .flatMap(({ ends: end }) => (end === null ? [] : [end]));
  }

  return {
    today: () => localDay(clock.wallMs(), clock.offsetMinutes()),

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
