import { lastMarksMs } from "../../../shared/session/decide.ts";
import type { Cancel } from "../base/clock.ts";
import type { ConductorOptions, Desk } from "./conductor-desk.ts";
import { type GapWatch, gapWatch } from "./gap-watch.ts";
import {
  type Call,
  isCallAhead,
  type LiveSession,
  momentOfCue,
  nextCue,
  sessionMsOf,
} from "./live-session.ts";
import { ownCues } from "./own-cues.ts";

/** How often the conductor looks at both clocks, in ms of real time; all lengths below likewise. */
export const tickMs = 250;
/** A window hears of a cue this long ahead, so that it can put the sound on its audio clock. */
const callAheadMs = 2_500;
/** A cue of which no window has reported this long after its moment reached nobody we know of. */
export const reportWithinMs = 3_000;
/** A cue that could not be called by this long after its moment is too late to sound. */
const callableMs = 500;

/** All work that time brings; see `conductor`. */
export type TimeWork = ReturnType<typeof whatTimeBrings>;

export function whatTimeBrings(desk: Desk, options: ConductorOptions) {
  const { clock, onLive, report } = options;
  const real = (ms: number): number => ms * clock.speed;
  const gaps: GapWatch = gapWatch(desk, clock, tickMs);
  const own = ownCues(desk, options, gaps, {
    aheadMs: callAheadMs,
    withinMs: reportWithinMs,
    callableMs,
  });
  let timer: Cancel = () => {};
  let wasRunning = false;
  let failing = false;
  let stopped = false;

  /** Does what is due by now; may be called at any moment. Timers only decide how soon. */
  function advance(): void {
    timer();
    tellIfRunning();
    const live = desk.live();
    if (live === null || stopped) return;
    try {
      gaps.notice(live);
      gaps.logPause(live);
      settleOverdue(desk, live, clock.monotonicMs());
      own.settle(live);
      callCues(live);
      own.call(live);
      finish(live);
      failing = false;
    } catch (error) {
      // A full disk stays full for many ticks; once is enough to say so.
      if (!failing) report(error);
      failing = true;
    }
    tellIfRunning();
    const left = desk.live();
    if (left === null) return;
    const now = clock.monotonicMs();
    timer = clock.after(nextWakeIn(left, own.moments(left, now), now, clock.speed), advance);
  }

  function tellIfRunning(): void {
    const running = desk.live()?.state.status === "running";
    if (running === wasRunning) return;
    wasRunning = running;
    onLive(running);
  }

  /** Tells the sounding window of the next cue when it is near; never of two that are both still to come. */
  function callCues(held: LiveSession): void {
    const { id } = held.session;
    while (held.state.status === "running" && held.time.running) {
      const cue = nextCue(held);
      const due = cue === null ? null : momentOfCue(held, cue);
      if (cue === null || due === null) return;
      const now = clock.monotonicMs();
      const open = desk.windows.get(id);
      if (now > due + real(callableMs) || (now >= due && !open?.present)) {
        desk.obey(id, { kind: "leave-undelivered", cue, reason: gaps.reasonAt(due) });
        continue;
      }
      if (!open?.present || now < due - real(callAheadMs) || isCallAhead(held, now)) return;
      desk.obey(id, { kind: "announce", cue });
      held.calls.set(cue, {
        dueMonotonicMs: due,
        deadlineMonotonicMs: due + real(reportWithinMs),
        reason: "no-report",
      });
      desk.tellAll(id, { kind: "announced", cue, dueMonotonicMs: due });
    }
  }

  function finish(held: LiveSession): void {
    const now = clock.monotonicMs();
    if (held.endedMonotonicMs !== null) {
      if (now - held.endedMonotonicMs > lastMarksMs) desk.release();
      return;
    }
    if (held.state.status !== "running" || sessionMsOf(held, now) < held.lengthMs) return;
    // A cue near the end still gets its verdict.
    if (held.calls.size + held.ownCalls.size > 0) return;
    close(held, "finished");
  }

  function close(held: LiveSession, reason: "finished" | "teacher"): void {
    desk.takeBack(held);
    desk.obey(held.session.id, { kind: "end", reason });
    held.calls.clear();
    held.ownCalls.clear();
    held.time.stop(clock.monotonicMs());
    desk.closeWindows(held.session.id);
  }

  return {
    advance,
    ownShown: own.shown,
    close,

    run(held: LiveSession): void {
      gaps.look();
      held.pauseOwed = null;
      held.time.start(clock.monotonicMs());
      advance();
    },

    stop(): void {
      stopped = true;
      timer();
      if (wasRunning) onLive(false);
      wasRunning = false;
    },

    tellIfRunning,
  };
}

/** A cue of which no window has reported in time reached nobody we know of. */
function settleOverdue(desk: Desk, { session, calls }: LiveSession, now: number): void {
  for (const [cue, call] of [...calls]) {
    if (now < call.deadlineMonotonicMs) continue;
    desk.obey(session.id, { kind: "leave-undelivered", cue, reason: call.reason });
    calls.delete(cue);
  }
}

/** Until the next thing that is due, and never longer than a tick. */
function nextWakeIn(held: LiveSession, own: readonly number[], now: number, speed: number): number {
  const real = (ms: number): number => ms * speed;
  const cue = held.time.running ? nextCue(held) : null;
  const due = cue === null ? null : momentOfCue(held, cue);
  const ofCalls = (call: Call) => [call.dueMonotonicMs, call.deadlineMonotonicMs];
  const moments = [...own, ...[...held.calls.values()].flatMap(ofCalls)];
  if (due !== null) moments.push(due - real(callAheadMs), due);
  const end = held.time.momentOf(held.lengthMs);
  if (end !== null) moments.push(end);
  const ahead = moments.map((moment) => moment - now).filter((ms) => ms > 0);
  return Math.min(real(tickMs), ...ahead);
}
