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
 */
export function offerMeans(
  canSound: () => boolean,
  isFirst: boolean,
  tell: (can: CueMeans) => void,
): { now: () => CueMeans; stop: () => void } {
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
    now: () => {
      told = now();
      return told;
    },
    stop: () => {
      for (const stop of stops) stop();
      document.removeEventListener("visibilitychange", look);
    },
  };
}
