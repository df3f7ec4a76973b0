import type { Store } from "../../store/store.ts";
import type { Changes } from "../base/changes.ts";
import type { Handlers } from "../base/handlers.ts";
import { knownGroup, knownStudent } from "../base/known.ts";
import { refuseIfSavedElsewhere } from "../base/saved-elsewhere.ts";
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

    saveWords({ studentId, words, before }) {
      const { groupId } = knownStudent(store, studentId);
      const kept = store.familyWords.ofGroup(groupId).find((each) => each.studentId === studentId);
      if (before !== undefined) refuseIfSavedElsewhere(before, kept?.words ?? "");
      store.familyWords.save(studentId, words, todayOf(clock));
      changes.publish("home");
      return {};
    },
  };
}
