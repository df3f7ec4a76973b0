import { useEffect, useRef } from "react";
import type { CueSound } from "./use-cue-sound.ts";

/** Any press on a page lets it sound, so the first one turns on sound that waits for it. */
export function useUnlockOnPress(sound: CueSound): void {
  const { unlock } = sound;
  const unlockNow = useRef(unlock);
  unlockNow.current = unlock;
  const isWaiting = sound.status === "locked" || sound.status === "suspended";
  useEffect(() => {
    if (!isWaiting) return;
    const onPress = () => unlockNow.current();
    window.addEventListener("click", onPress);
    window.addEventListener("keydown", onPress);
    return () => {
      window.removeEventListener("click", onPress);
      window.removeEventListener("keydown", onPress);
    };
  }, [isWaiting]);
}
