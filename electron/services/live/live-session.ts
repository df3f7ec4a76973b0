import type { Session } from "../../../shared/api/sessions.ts";
import { sessionSchedule } from "../../../shared/schedule/session-schedule.ts";
import type { UndeliveredReason } from "../../../shared/session/event.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { type SessionTime, sessionTime } from "./session-time.ts";

/** A cue that a window was told of and that has no verdict yet. */
export interface Call {
  readonly dueMonotonicMs: number;
  deadlineMonotonicMs: number;
  reason: UndeliveredReason;
}

/** The one session that runs, is paused, or has just ended and still takes its last marks. */
export interface LiveSession {
  readonly session: Session;
  /** Session time of each planned cue in ms; cue n is at n - 1. */
  readonly dueMs: readonly number[];
  readonly lengthMs: number;
  readonly time: SessionTime;
  readonly calls: Map<number, Call>;
  state: SessionState;
  /** Time stands still, but the log does not know it yet because the store failed. */
  pauseOwed: "asleep" | "clock-changed" | null;
  endedMonotonicMs: number | null;
}

/**
 * The planned cues of a session, in ms of session time; cue n is at n - 1.
 *
 * A live session gives the group's cues: one room hears one loudspeaker, so a chime at one student's
 * moment would prompt all of them, and the log numbers the cues of a session, not those of each student.
 * A student's own cues, from the same seed, are for the key and the recording until students can have a
 * device of their own.
 */
export function plannedCues({ plan, seed }: Session): number[] {
  const { cues } = sessionSchedule(plan, seed);
  return cues.map((seconds) => seconds * 1_000);
}

/** A session standing still at the session time of its newest event. */
export function standingStill(session: Session, state: SessionState): LiveSession {
  const lengthMs = session.plan.lengthSeconds * 1_000;
  return {
    session,
    dueMs: plannedCues(session),
    lengthMs,
    time: sessionTime(state.atMs, lengthMs),
    calls: new Map(),
    state,
    pauseOwed: null,
    endedMonotonicMs: null,
  };
}

/** Session time, in ms: never behind the log, whatever the clocks did. */
export const sessionMsOf = (held: LiveSession, monotonicMs: number): number =>
  Math.max(held.state.atMs, held.time.at(monotonicMs));

/** The first planned cue without a verdict of which no window knows; null when there is none. */
export function nextCue({ dueMs, state, calls }: LiveSession): number | null {
  for (let cue = (state.openCue ?? 0) + 1; cue <= dueMs.length; cue++) {
    const standing = state.cues.get(cue)?.standing;
    if (standing !== "delivered" && standing !== "undelivered" && !calls.has(cue)) return cue;
  }
  return null;
}

/** When a cue comes on the monotonic clock, in ms; null while time stands still. */
export function momentOfCue(held: LiveSession, cue: number): number | null {
  const due = held.dueMs[cue - 1];
  return due === undefined ? null : held.time.momentOf(due);
}

/** Whether a window was told of a cue that is still to come. */
export const isCallAhead = (held: LiveSession, monotonicMs: number): boolean =>
  [...held.calls.values()].some((call) => call.dueMonotonicMs > monotonicMs);
