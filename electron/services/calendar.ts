import type { Store } from "../store/store.ts";
import type { Changes } from "./base/changes.ts";
import type { Handlers } from "./base/handlers.ts";
import { knownGroup } from "./base/known.ts";
import { Missing, Refusal } from "./base/refusal.ts";
import { todayOf, type WallClock } from "./base/wall-clock.ts";

/** The school's days off, on which no session is expected, and the weekdays on which each group sits. */
export function calendarHandlers(
  store: Store,
  changes: Changes,
  clock: WallClock,
): Handlers["calendar"] {
  return {
    daysOff: () => store.daysOff.list(),

    add(facts) {
      refuseBackwards(facts);
      const made = store.daysOff.create(facts, clock.wallMs());
      changes.publish("program");
      return made;
    },

    remove({ id }) {
      if (!store.daysOff.remove(id)) throw new Missing("day off");
      changes.publish("program");
      return {};
    },

    timetable: () => ({
      today: todayOf(clock),
      groups: store.groups.timetable(),
      periods: store.privileges.allPeriods(),
    }),

    terms: () => store.terms.list(),

    addTerm(facts) {
      refuseBackwards(facts);
      const made = store.terms.add(facts, clock.wallMs());
      changes.publish("program");
      return made;
    },

    removeTerm({ id }) {
      if (!store.terms.remove(id)) throw new Missing("term");
      changes.publish("program");
      return {};
    },

    asides: () => store.putAside.list(),

    putAside({ what, aside }) {
      if (aside) store.putAside.put(what, clock.wallMs());
      else store.putAside.takeBack(what);
      changes.publish("program");
      return {};
    },

    saveWeekdays({ groupId, weekdays }) {
      knownGroup(store, groupId);
      store.groups.setWeekdays(groupId, [...new Set(weekdays)].sort());
      changes.publish("program");
      return {};
    },
  };
}

function refuseBackwards({ firstDay, lastDay }: { firstDay: string; lastDay: string }): void {
  if (firstDay <= lastDay) return;
  throw new Refusal(
    "days-off-order",
    "The last day comes before the first. Exchange the two, or correct one.",
  );
}
