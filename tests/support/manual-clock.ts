import type { DesktopClock } from "../../electron/services/base/clock.ts";

/** A clock that stands still until it is told otherwise. */
export interface ManualClock extends DesktopClock {
  /** Lets real time pass evenly: every timer on the way fires at its own moment. */
  advance(realMs: number): void;
  /**
   * The computer sleeps: time passes, but timers only fire once it is over. Whether the monotonic
   * clock counts sleep differs by system (Windows does, Linux and macOS do not).
   */
  sleep(realMs: number, counted: boolean): void;
  /** Someone sets the clock: forward, or back when negative. */
  shiftWall(ms: number): void;
  /** The zone offset changes, as on a daylight-saving day. */
  setOffset(minutes: number): void;
  /** Timers that have not fired. */
  pending(): number;
}

interface Timer {
  readonly dueMs: number;
  readonly callback: () => void;
}

/** A clock under the test's hand: a day passes in no time. */
export function manualClock(
  options: {
    readonly speed?: number;
    readonly wallMs?: number;
    readonly offsetMinutes?: number;
  } = {},
): ManualClock {
  const speed = options.speed ?? 1;
  let monotonic = 0;
  let wall = options.wallMs ?? Date.UTC(2026, 0, 12, 9);
  let offset = options.offsetMinutes ?? 0;
  const timers = new Set<Timer>();

  function fireDue(limitMs: number, arrive: (dueMs: number) => void): void {
    for (;;) {
      let next: Timer | null = null;
      for (const timer of timers) if (next === null || timer.dueMs < next.dueMs) next = timer;
      if (next === null || next.dueMs > limitMs) return;
      timers.delete(next);
      arrive(next.dueMs);
      next.callback();
    }
  }

  return {
    speed,
    monotonicMs: () => monotonic,
    wallMs: () => wall,
    offsetMinutes: () => offset,
    after(ms, callback) {
      const timer = { dueMs: monotonic + Math.max(0, ms), callback };
      timers.add(timer);
      return () => void timers.delete(timer);
    },
    advance(realMs) {
      const target = monotonic + realMs * speed;
      const moveTo = (ms: number) => {
        const step = Math.max(0, ms - monotonic);
        monotonic += step;
        wall += step / speed;
      };
      fireDue(target, moveTo);
      moveTo(target);
    },
    sleep(realMs, counted) {
      wall += realMs;
      if (counted) monotonic += realMs * speed;
      const woken = monotonic;
      fireDue(woken, () => {});
    },
    shiftWall(ms) {
      wall += ms;
    },
    setOffset(minutes) {
      offset = minutes;
    },
    pending: () => timers.size,
  };
}
