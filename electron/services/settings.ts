import type { AppInfo } from "../../shared/api/app.ts";
import type { Store } from "../store/store.ts";
import type { Changes } from "./base/changes.ts";
import type { Handlers } from "./base/handlers.ts";
import type { WallClock } from "./base/wall-clock.ts";
import { addSample, removeSample } from "./sample-class.ts";

/** The app itself: what it is, the teacher's settings, the sample class and news of changes. */
export function appHandlers(
  store: Store,
  changes: Changes,
  clock: WallClock,
  about: Pick<AppInfo, "version" | "host" | "speed">,
): Handlers["app"] {
  return {
    info: () => ({
      ...about,
      dataFolder: store.folder,
      hasSample: store.groups.sample() !== null,
    }),

    addSample() {
      const groupId = addSample(store, clock);
      changes.publish("groups", "students", "plans", "sessions", "records", "phases", "program");
      return { groupId };
    },

    removeSample() {
      const studentsRemoved = removeSample(store);
      changes.publish("groups", "students", "plans", "sessions", "records", "phases", "program");
      return { studentsRemoved };
    },

    settings: () => store.settings.get(),

    saveSettings(change) {
      const saved = store.settings.save(change);
      if (change.points === undefined) changes.publish("settings");
      else changes.publish("settings", "points", "program");
      return saved;
    },

    changes: ({ after }, { signal }) => changes.subscribe(after, signal),
  };
}
