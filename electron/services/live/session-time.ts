/**
 * Session time: how long a session has been running, without pauses and sleep. It stands still until
 * it is started, and never passes the session's length.
 */
export interface SessionTime {
  readonly running: boolean;
  /** Session time at a moment of the monotonic clock, in ms. */
  at(monotonicMs: number): number;
  /** When a moment of session time comes if nothing stops it; null while it stands still. */
  momentOf(sessionMs: number): number | null;
  start(monotonicMs: number): void;
  stop(monotonicMs: number): void;
}

/** @param fromMs where it stands at first; @param lengthMs the session's length */
export function sessionTime(fromMs: number, lengthMs: number): SessionTime {
  let standsAt = Math.min(fromMs, lengthMs);
  let startedAt: number | null = null;

  const at = (monotonicMs: number): number =>
    startedAt === null
      ? standsAt
      : Math.min(lengthMs, standsAt + Math.max(0, monotonicMs - startedAt));

  return {
    get running() {
      return startedAt !== null;
    },
    at,
    momentOf: (sessionMs) => (startedAt === null ? null : startedAt + sessionMs - standsAt),
    start(monotonicMs) {
      if (startedAt === null) startedAt = monotonicMs;
    },
    stop(monotonicMs) {
      standsAt = at(monotonicMs);
      startedAt = null;
    },
  };
}
