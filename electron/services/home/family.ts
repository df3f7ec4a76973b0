import type { Store } from "../../store/store.ts";
import type { Changes } from "../base/changes.ts";
import type { Handlers } from "../base/handlers.ts";
import { knownGroup, knownStudent } from "../base/known.ts";
import { todayOf, type WallClock } from "../base/wall-clock.ts";

/** The adult's own words on the pages for families. */
export function familyHandlers(
  store: Store,
  changes: Changes,
  clock: WallClock,
): Handlers["family"] {
  return {
    words({ groupId }) {
      knownGroup(store, groupId);
      return store.familyWords.ofGroup(groupId);
    },

    saveWords({ studentId, words }) {
      knownStudent(store, studentId);
      store.familyWords.save(studentId, words, todayOf(clock));
      changes.publish("home");
      return {};
    },
  };
}
