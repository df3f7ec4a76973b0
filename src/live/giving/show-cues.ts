import { pageClock } from "../../sound/page-clock.ts";
import { checkPaint } from "./cue-in-sight.ts";
import { type CueGiving, type CueLine, cueReports } from "./cue-line.ts";

/** Cues that are only seen: shown here at their moment; the log's `delivered` makes every window show it. */
export function showCues(line: CueLine, onSeen: () => void): CueGiving {
  const { sync } = line;
  const { show, stop } = cueReports(line);
  const waiting = new Map<number, () => void>();
  const cancel = (cue: number) => {
    waiting.get(cue)?.();
    waiting.delete(cue);
  };
  const cancelAll = () => {
    for (const cue of [...waiting.keys()]) cancel(cue);
  };
  return {
    announced: (cue, dueMonotonicMs) => {
      const dueAtMs = sync.pageMsAt(dueMonotonicMs);
      if (dueAtMs === null) return;
      cancel(cue);
      checkPaint();
      const atItsMoment = () => {
        waiting.delete(cue);
        onSeen();
        void show(cue, dueMonotonicMs, null);
      };
      waiting.set(cue, pageClock.after(Math.max(0, dueAtMs - pageClock.nowMs()), atItsMoment));
    },
    cancel,
    cancelAll,
    canSound: () => false,
    stop: () => {
      cancelAll();
      stop();
    },
  };
}
