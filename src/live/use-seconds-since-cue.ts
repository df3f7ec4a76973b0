import { useAppInfo } from "../api/queries.ts";
import type { LiveSession } from "./use-live-session.ts";
import { useSessionSeconds } from "./use-session-time.ts";

/** How long ago the newest cue came, in seconds as people feel them; null before the first. */
export function useSecondsSinceCue({ state }: LiveSession): number | null {
  const speed = useAppInfo()?.speed ?? 1;
  const seconds = useSessionSeconds(state.lastSeq);
  const cue = state.openCue === null ? undefined : state.cues.get(state.openCue);
  if (cue?.standing !== "delivered") return null;
  return Math.max(0, seconds - cue.atMs / 1000) / speed;
}
