import type { DesktopClock } from "../base/clock.ts";

/** Both in ms of real time. A shorter hitch is only a busy computer. */
const leastGapMs = 2_000;
/** After a gap this long the class has certainly noticed: the session waits for its teacher. */
export const pausingGapMs = 30_000;

/**
 * Time that went by unseen. `stalled`: the monotonic clock ran on while nothing was done, so the
 * computer slept or hung. `wall-jumped`: only the wall clock moved forward, so the clock was set, or
 * the computer slept on a system whose monotonic clock does not count sleep; the two look alike.
 */
export interface Gap {
  readonly kind: "stalled" | "wall-jumped";
  /** Length in ms of real time. */
  readonly realMs: number;
  /** The last moment of the monotonic clock at which all was well. */
  readonly fromMonotonicMs: number;
}

/**
 * Compares the two clocks each time it is asked. Messages about sleep come late, twice or never on some
 * systems, so this is what the conductor relies on and they are only hints.
 *
 * @param everyMs how often it will be asked, at least, in ms of real time
 */
export function sleepWatch(clock: DesktopClock, everyMs: number): { look(): Gap | null } {
  let monotonic = clock.monotonicMs();
  let wall = clock.wallMs();
  return {
    look() {
      const fromMonotonicMs = monotonic;
      const monotonicGap = (clock.monotonicMs() - monotonic) / clock.speed;
      const wallGap = clock.wallMs() - wall;
      monotonic = clock.monotonicMs();
      wall = clock.wallMs();
      if (monotonicGap - everyMs > leastGapMs) {
        return { kind: "stalled", realMs: monotonicGap, fromMonotonicMs };
      }
      // A wall clock that went back is no sleep, and session time never looks at it.
      const jump = wallGap - monotonicGap;
      return jump > leastGapMs ? { kind: "wall-jumped", realMs: jump, fromMonotonicMs } : null;
    },
  };
}
