import { useAskBeforeClosing } from "./giving/use-ask-before-closing.ts";
import { type CueSound, useCueSound } from "./giving/use-cue-sound.ts";
import { useUnlockOnPress } from "./giving/use-unlock-on-press.ts";
import type { LiveSession } from "./use-live-session.ts";

const wish = { isFirst: () => false };

/**
 * For windows that show the class its cues: they give the cues when no teacher's window does it better, also
 * when none is open. A plan that cues the teacher alone gives nothing here.
 */
export function useClassCues({ session, state }: LiveSession): CueSound {
  const isLive = state.status === "running" || state.status === "paused";
  const isShared = session.plan.cueing !== "teacher";
  const sound = useCueSound(isLive && isShared ? session : null, wish);
  useUnlockOnPress(sound);
  useAskBeforeClosing(state.status === "running" && sound.giver?.windows === 1);
  return sound;
}
