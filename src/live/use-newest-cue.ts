import { useEffect, useSyncExternalStore } from "react";
import { addSign, afterPaint, cueAhead, onCueInSight, paintedCue } from "./giving/cue-in-sight.ts";
import type { LiveSession } from "./use-live-session.ts";

/**
 * The newest cue that people know of or are to know of now: the newest in the log, or one that this
 * window is putting in sight; null before the first.
 */
export function useNewestCue({ session, state }: LiveSession): number | null {
  const ahead = useSyncExternalStore(onCueInSight, cueAhead);
  const cue = ahead?.sessionId === session.id && state.status === "running" ? ahead.cue : 0;
  const newest = Math.max(cue, state.openCue ?? 0);
  return newest === 0 ? null : newest;
}

/**
 * While mounted, this window counts as showing cues, and says of each when it has been painted.
 *
 * @param shown the cue whose sign stands on the page as rendered now; null when none does
 * @param counts false for a sign that those who are to notice the cue do not look at
 */
export function useShowsCues(sessionId: string, shown: number | null, counts = true): void {
  useEffect(() => (counts ? addSign() : undefined), [counts]);
  useEffect(() => {
    if (shown === null || !counts) return;
    return afterPaint(() => paintedCue({ sessionId, cue: shown }));
  }, [sessionId, shown, counts]);
}
