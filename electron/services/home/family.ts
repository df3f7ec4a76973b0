import { localDay } from "../../../shared/calendar/local-day.ts";
import type { Store } from "../../store/store.ts";
import type { Changes } from "../base/changes.ts";
import type { DesktopClock } from "../base/clock.ts";
import type { Handlers } from "../base/handlers.ts";
import { Missing } from "../base/refusal.ts";

/** The adult's own words on the pages for families. */
export function familyHandlers(
  store: Store,
  changes: Changes,
  clock: Pick<DesktopClock, "wallMs" | "offsetMinutes">,
): Handlers["family"] {
  return {
    words({ groupId }) {
      if (store.groups.get(groupId) === null) throw new Missing("group");
      return store.familyWords.ofGroup(groupId);
    },

    saveWords({ studentId, words }) {
      if (store.students.get(studentId) === null) throw new Missing("student");
      store.familyWords.save(studentId, words, localDay(clock.wallMs(), clock.offsetMinutes()));
      changes.publish("home");
      return {};
    },
  };
}
