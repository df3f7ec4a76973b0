import { useEffect } from "react";
import { useCueSounder } from "./cue-sounder.tsx";
import type { LiveSession } from "./use-live-session.ts";

/**
 * This window sounds the session's cues from now on. Chimes go on while the teacher looks at another
 * page; cues that are only seen cannot be seen there, so another window takes over.
 */
export function useTakeSounding({ session }: LiveSession) {
  const { take } = useCueSounder();
  const isHeard = session.plan.cueing === "sound";
  useEffect(() => {
    take(session.id);
    return () => {
      if (!isHeard) take(null);
    };
  }, [take, session.id, isHeard]);
}
