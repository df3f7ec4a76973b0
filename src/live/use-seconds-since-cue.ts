import { useAppInfo } from "../api/queries.ts";
import type { LiveSession } from "./use-live-session.ts";
import { useSessionReading } from "./use-session-time.ts";

/** How long ago the newest cue came, in seconds as people feel them; null before the first, or until the time is known. */
export function useSecondsSinceCue({ state }: LiveSession): number | null {
  const speed = useAppInfo()?.speed ?? 1;
  const seconds = useSessionReading(state.lastSeq);
  const cue = state.openCue === null ? undefined : state.cues.get(state.openCue);
  if (cue?.standing !== "delivered" || seconds === null) return null;
  return Math.max(0, seconds - cue.atMs / 1000) / speed;
}
