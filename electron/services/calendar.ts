import type { Store } from "../store/store.ts";
import type { Changes } from "./changes.ts";
import type { DesktopClock } from "./clock.ts";
import type { Handlers } from "./handlers.ts";
import { Missing, Refusal } from "./refusal.ts";

/** The school's days off: no session is expected on them. */
export function calendarHandlers(
  store: Store,
  changes: Changes,
  clock: Pick<DesktopClock, "wallMs">,
): Handlers["calendar"] {
  return {
    daysOff: () => store.daysOff.list(),

    add(facts) {
      if (facts.lastDay < facts.firstDay) {
        throw new Refusal(
          "days-off-order",
          "The last day comes before the first. Exchange the two, or correct one.",
        );
      }
      const made = store.daysOff.create(facts, clock.wallMs());
      changes.publish("program");
      return made;
    },

    remove({ id }) {
      if (!store.daysOff.remove(id)) throw new Missing("day off");
      changes.publish("program");
      return {};
    },
  };
}
