/** Takes a timer back; harmless when it has fired. */
export type Cancel = () => void;

/**
 * The desktop side's only source of time. Lengths come from the monotonic clock, dates from the wall
 * clock; nothing is ever computed by subtracting wall times, because people and networks move those.
 */
export interface DesktopClock {
  /** Counts evenly from an arbitrary start, in ms; runs `speed` times faster than real time. */
  monotonicMs(): number;
  /** Milliseconds since 1970 UTC, at real speed whatever `speed` is. */
  wallMs(): number;
  /** Minutes that local time is ahead of UTC at this moment. */
  offsetMinutes(): number;
  /** Calls back once after `ms` of this clock's monotonic time. */
  after(ms: number, callback: () => void): Cancel;
  /** 1 in a classroom; more for a demonstration. */
  readonly speed: number;
}

/** The computer's own clock, or a fast-forward one when `speed` is above 1. */
export function systemClock(speed = 1): DesktopClock {
  if (!(speed > 0 && Number.isFinite(speed))) {
    throw new RangeError(`speed must be a number above 0; got ${speed}.`);
  }
  return {
    speed,
    monotonicMs: () => performance.now() * speed,
    wallMs: () => Date.now(),
    offsetMinutes: () => offsetAt(Date.now()),
    after(ms, callback) {
      const timer = setTimeout(callback, Math.max(0, ms / speed));
      return () => clearTimeout(timer);
    },
  };
}

const offsetAt = (wallMs: number): number => -new Date(wallMs).getTimezoneOffset();
