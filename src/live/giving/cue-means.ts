import type { CueMeans } from "../../../shared/api/sessions.ts";
import { onSoundStatus } from "../../sound/app-player.ts";
import { pageClock } from "../../sound/page-clock.ts";
import { cuesAreInSight, onCueInSight } from "./cue-in-sight.ts";

/** The window in which a session was started gets so long to take its cues before others offer to sound them, in ms. */
const othersFirstMs = 1_000;

/**
 * Watches what this window can do for a cue.
 *
 * @param canSound whether it could sound one now
 * @param isFirst whether it comes before other windows that have just found the session
 * @param tell told whenever it can do more or less than before
 * @returns `join`, which has the window take part by what it can do now; and again, once it does, by what
 *   changed on the way there: of a window that has not joined nobody takes in a change
 */
export function offerMeans(
  canSound: () => boolean,
  isFirst: boolean,
  tell: (can: CueMeans) => void,
): { join: <Joined>(by: (can: CueMeans) => Promise<Joined>) => Promise<Joined>; stop: () => void } {
  let mayOffer = isFirst;
  const now = (): CueMeans => {
    if (mayOffer && canSound()) return "sound";
    return cuesAreInSight() ? "sight" : "none";
  };
  let told = now();
  const look = () => {
    const can = now();
    if (can !== told) tell(can);
    told = can;
  };
  const stops = [
    pageClock.after(othersFirstMs, () => {
      mayOffer = true;
      look();
    }),
    onSoundStatus(look),
    onCueInSight(look),
  ];
  document.addEventListener("visibilitychange", look);
  return {
    join: async (by) => {
      const said = now();
      told = said;
      const joined = await by(said);
      if (told !== said) tell(told);
      return joined;
    },
    stop: () => {
      for (const stop of stops) stop();
      document.removeEventListener("visibilitychange", look);
    },
  };
}
