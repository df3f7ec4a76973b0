import type { CueCall, CueMeans } from "../../../shared/api/sessions.ts";
import type { DesktopClock } from "../base/clock.ts";
import type { Desk } from "./conductor-desk.ts";
import { sessionRefusal } from "./session-refusals.ts";
import { sounders } from "./sounders.ts";
import { reportWithinMs, type TimeWork } from "./what-time-brings.ts";

/** A window whose line is gone takes its cues back when it sees that; one that is nearer than this may sound there, in ms. */
const handOnMs = 500;

/** What sounding windows hear of cues and say of them. */
export function cueReports(desk: Desk, time: TimeWork, clock: DesktopClock) {
  const within = reportWithinMs * clock.speed;

  const forget = (sessionId: string, cue: number): void => {
    desk.held(sessionId)?.calls.delete(cue);
    time.advance();
  };

  /** A window woke from sleep and shows now what was due before it: at its moment nobody was asked. */
  function comesTooLate(sessionId: string, cue: number, problem: string | null): void {
    // Notices the gap first, so that the reason is known.
    time.advance();
    const reason = desk.held(sessionId)?.calls.get(cue)?.reason ?? "no-report";
    const said = problem === null ? {} : { problem };
    desk.obey(sessionId, { kind: "leave-undelivered", cue, reason, ...said });
    forget(sessionId, cue);
  }

  return {
    /**
     * A window says when a cue really began. Saying it again, or after the verdict, changes nothing; one that
     * began seconds after its moment, on waking, counts as not delivered.
     */
    cueDelivered(
      sessionId: string,
      told: {
        readonly cue: number;
        readonly beganMonotonicMs: number;
        readonly by: "sound" | "sight";
        readonly problem: string | null;
      },
    ): void {
      desk.known(sessionId);
      const { cue, by, problem } = told;
      const call = desk.held(sessionId)?.calls.get(cue);
      const late = call === undefined ? null : told.beganMonotonicMs - call.dueMonotonicMs;
      if (late !== null && late > within) {
        comesTooLate(sessionId, cue, problem);
        return;
      }
      const latenessMs = late === null ? null : late / clock.speed;
      desk.obey(sessionId, { kind: "deliver", cue, by, latenessMs, problem });
      forget(sessionId, cue);
    },

    /** A device says when it showed its student's own cue. */
    ownCueShown: time.ownShown,

    /** A window says that neither sound nor sight reached anyone. */
    cueUndelivered(sessionId: string, cue: number, problem: string | null): void {
      desk.known(sessionId);
      if (!desk.stateOf(sessionId).cues.has(cue)) throw sessionRefusal("cue-unknown");
      const call = desk.held(sessionId)?.calls.get(cue);
      if (call !== undefined && clock.monotonicMs() > call.dueMonotonicMs + within) {
        comesTooLate(sessionId, cue, problem);
        return;
      }
      const said = problem === null ? {} : { problem };
      desk.obey(sessionId, { kind: "leave-undelivered", cue, reason: "sound-failed", ...said });
      forget(sessionId, cue);
    },

    /** Cue calls for one window; ends with the session. */
    cueCalls(
      sessionId: string,
      window: string,
      can: CueMeans,
      signal: AbortSignal,
    ): AsyncIterableIterator<CueCall, undefined, undefined> {
      desk.known(sessionId);
      let joined = desk.windows.get(sessionId);
      if (joined === undefined) {
        const handOn = () => {
          const held = desk.held(sessionId);
          if (held !== null) desk.takeBack(held, handOnMs * clock.speed);
        };
        joined = sounders(() => queueMicrotask(time.advance), handOn);
        if (desk.stateOf(sessionId).status === "ended") joined.close();
        else desk.windows.set(sessionId, joined);
      }
      return joined.join(window, can, signal);
    },

    /** A window can now do more or less for a cue. */
    cueMeans(sessionId: string, window: string, can: CueMeans): void {
      desk.known(sessionId);
      desk.windows.get(sessionId)?.means(window, can);
    },

    /**
     * A window goes, and has taken back what it was told of, so that another can give it, however near it is.
     * Of a window that is lost without this word nobody knows whether a cue of the next moment still sounds
     * there; that one is given to no other.
     */
    leaveCues(sessionId: string, window: string): void {
      desk.known(sessionId);
      const hadTask = desk.windows.get(sessionId)?.leave(window) ?? false;
      const held = desk.held(sessionId);
      if (hadTask && held !== null) desk.takeBack(held);
      time.advance();
    },
  };
}
