import type { PageClock } from "./audio-output.ts";

/** The page's own clock and timers. */
export const pageClock: PageClock = {
  nowMs: () => performance.now(),
  after(ms, then) {
    const timer = setTimeout(then, ms);
    return () => clearTimeout(timer);
  },
};
