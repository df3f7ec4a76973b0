import { useCueSound } from "./use-cue-sound.ts";
import type { LiveSession } from "./use-live-session.ts";

const sights = { isShown: () => true };

/**
 * For windows that show the class its cues: a cue without sound comes true there, also when no teacher's
 * window is open.
 */
export function useSilentCues({ session, state }: LiveSession): void {
  const isLive = state.status === "running" || state.status === "paused";
  useCueSound(isLive && session.plan.cueing === "silent" ? session : null, sights);
}
