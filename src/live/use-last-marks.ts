import { useEffect, useState } from "react";
import { lastMarksMs } from "../../shared/session/decide.ts";
import { useAppInfo } from "../api/queries.ts";

/** Whether a session that has ended in front of this window still takes marks for its last cue. */
export function useLastMarks(endedHere: boolean): boolean {
  const speed = useAppInfo()?.speed ?? 1;
  const [takes, setTakes] = useState(endedHere);
  useEffect(() => {
    const stop = setTimeout(() => setTakes(false), lastMarksMs / speed);
    return () => clearTimeout(stop);
  }, [speed]);
  return takes;
}
