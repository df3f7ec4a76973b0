import { useEffect, useState } from "react";
import { lastMarksMs } from "../../shared/session/decide.ts";
import { useAppInfo } from "../api/queries.ts";

/** Whether a session that has ended in front of this window still takes marks for its last cue. */
export function useLastMarks(endedHere: boolean): boolean {
  const speed = useAppInfo()?.speed ?? 1;
  const [isPast, setPast] = useState(false);
  useEffect(() => {
    if (!endedHere) return;
    const stop = setTimeout(() => setPast(true), lastMarksMs / speed);
    return () => clearTimeout(stop);
  }, [endedHere, speed]);
  return endedHere && !isPast;
}
