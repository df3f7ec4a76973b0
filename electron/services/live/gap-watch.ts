import type { DesktopClock } from "../base/clock.ts";
import type { Desk } from "./conductor-desk.ts";
import type { Call, LiveSession } from "./live-session.ts";
import { type Gap, pausingGapMs, sleepWatch } from "./sleep-watch.ts";

/** After sleep, reports that lay waiting get this long to be read, in ms of real time. */
const graceAfterGapMs = 1_000;

/** Notices sleep and clock changes in a live session, and pauses it. */
export type GapWatch = ReturnType<typeof gapWatch>;

/** @param tickMs how often the conductor looks, in ms of real time */
export function gapWatch(desk: Desk, clock: DesktopClock, tickMs: number) {
  const watch = sleepWatch(clock, tickMs);
  let lastGapEndMs = Number.NEGATIVE_INFINITY;

  /** A cue whose moment passed during sleep: its report may still be waiting to be read. */
  function excuse(call: Call): void {
    if (call.dueMonotonicMs > clock.monotonicMs()) return;
    call.reason = "asleep";
    call.deadlineMonotonicMs = clock.monotonicMs() + graceAfterGapMs * clock.speed;
  }

  /** The class was not working while the computer slept, so session time stops where the gap began. */
  function stopForGap(held: LiveSession, gap: Gap): void {
    const slept = gap.kind === "stalled";
    held.time.stop(slept ? gap.fromMonotonicMs : clock.monotonicMs());
    held.pauseOwed = slept ? "asleep" : "clock-changed";
    desk.takeBack(held);
  }

  return {
    /** Looks at both clocks without drawing anything from it. */
    look: () => void watch.look(),

    notice(held: LiveSession): void {
      const gap = watch.look();
      if (gap === null) return;
      if (gap.kind === "stalled") {
        lastGapEndMs = clock.monotonicMs();
        for (const call of [...held.calls.values(), ...held.ownCalls.values()]) excuse(call);
      }
      if (gap.realMs > pausingGapMs && held.state.status === "running") stopForGap(held, gap);
    },

    logPause(held: LiveSession): void {
      if (held.pauseOwed === null) return;
      desk.obey(held.session.id, { kind: "pause", reason: held.pauseOwed });
      held.pauseOwed = null;
    },

    /** Why a cue that nobody could be told of reached nobody. */
    reasonAt: (dueMonotonicMs: number) =>
      dueMonotonicMs <= lastGapEndMs ? ("asleep" as const) : ("no-window" as const),
  };
}
