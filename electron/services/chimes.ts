import { chimeRate } from "../../shared/sound/loudness.ts";
import { mostPeak, ownChimeBounds } from "../../shared/sound/own-chime.ts";
import { decodeWav } from "../../shared/sound/wav.ts";
import type { Store } from "../store/store.ts";
import type { Changes } from "./base/changes.ts";
import type { DesktopClock } from "./base/clock.ts";
import type { Handlers } from "./base/handlers.ts";
import { Missing, Refusal } from "./base/refusal.ts";

/** The chimes that the teacher brought. */
export function chimeHandlers(
  store: Store,
  changes: Changes,
  clock: Pick<DesktopClock, "wallMs">,
): Handlers["chimes"] {
  return {
    list: () => store.ownChimes.list(),

    sound({ id }) {
      const sound = store.ownChimes.sound(id);
      return { sound: sound === null ? null : Buffer.from(sound).toString("base64") };
    },

    add({ name, sound }) {
      if (store.ownChimes.list().length >= ownChimeBounds.most) {
        throw new Refusal(
          "chimes-full",
          `There are ${ownChimeBounds.most} chimes of your own already. Remove one first.`,
          { most: ownChimeBounds.most },
        );
      }
      const file = Buffer.from(sound, "base64");
      if (!isChime(file)) {
        throw new Refusal("chime-unusable", "This sound cannot be used as a chime. Try another.");
      }
      const added = store.ownChimes.add(name, file, clock.wallMs());
      changes.publish("settings");
      return added;
    },

    remove({ id }) {
      const open = store.log.openSessionId();
      const inUse = open === null ? null : store.sessions.get(open)?.plan.chime;
      if (inUse === `own:${id}`) {
        throw new Refusal(
          "session-running",
          "A session of this group is still open. End it first.",
        );
      }
      const plansChanged = store.transaction(() => {
        if (store.settings.get().chime === `own:${id}`) store.settings.save({ chime: "bell" });
        return store.ownChimes.remove(id);
      });
      if (plansChanged === null) throw new Missing("chime");
      changes.publish("settings", "plans");
      return { plansChanged };
    },
  };
}

/** Whether a file is as the page prepares it; a page is not believed. */
function isChime(file: Uint8Array): boolean {
  try {
    const { sampleRate, samples } = decodeWav(file);
    const seconds = samples.length / chimeRate;
    const { leastSeconds, mostSeconds } = ownChimeBounds;
    if (sampleRate !== chimeRate || seconds < leastSeconds || seconds > mostSeconds) return false;
    // Rounding to 16 bits may lift a sample by a step.
    return samples.every((value) => Math.abs(value) <= mostPeak + 1 / 32_768);
  } catch {
    return false;
  }
}
