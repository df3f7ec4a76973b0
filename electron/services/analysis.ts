import { localDay } from "../../shared/calendar/local-day.ts";
import type { Store } from "../store/store.ts";
import type { DesktopClock } from "./base/clock.ts";
import type { Handlers } from "./base/handlers.ts";
import { Missing } from "./base/refusal.ts";

/** What the page's statistics start from: a group's counts, all at once. */
export function analysisHandlers(
  store: Store,
  clock: Pick<DesktopClock, "wallMs" | "offsetMinutes">,
): Handlers["analysis"] {
  return {
    counts({ groupId }) {
      const group = store.groups.get(groupId);
      if (group === null) throw new Missing("group");
      return {
        group,
        students: store.students.listAll(groupId),
        phases: store.phases.list(groupId),
        daysOff: store.daysOff.list(),
        ...store.counts.ofGroup(groupId),
        today: localDay(clock.wallMs(), clock.offsetMinutes()),
      };
    },
  };
}
