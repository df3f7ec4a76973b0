import type { Session } from "../../../shared/api/sessions.ts";
import { type OwnCue, ownSchedule } from "../../../shared/schedule/own-schedule.ts";
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

/** A student's own cue that their device was told of and that has no verdict yet. */
export interface OwnCall extends Call {
  readonly own: OwnCue;
}

/** Under which key a session's calls keep a student's own cue. */
export const ownKey = ({ studentId, cue }: Pick<OwnCue, "studentId" | "cue">): string =>
  `${studentId}/${cue}`;

/** The one session that runs, is paused, or has just ended and still takes its last marks. */
export interface LiveSession {
  readonly session: Session;
  /** Session time of each planned cue of the class in ms; cue n is at n - 1. None where students have own cues. */
  readonly dueMs: readonly number[];
  /** All students' own cues in the order in which they come; none where the class is cued together. */
  readonly own: readonly OwnCue[];
  readonly lengthMs: number;
  readonly time: SessionTime;
  readonly calls: Map<number, Call>;
  readonly ownCalls: Map<string, OwnCall>;
  state: SessionState;
  /** Time stands still, but the log does not know it yet because the store failed. */
  pauseOwed: "asleep" | "clock-changed" | null;
  endedMonotonicMs: number | null;
}

/**
 * The planned cues of the class in ms of session time; cue n is at n - 1. Where each student has own cues,
 * those of the student who is named.
 */
export function plannedCues({ plan, seed }: Session, studentId?: string): number[] {
  const isOwn = plan.cueing === "own" && studentId !== undefined;
  const { cues } = sessionSchedule(plan, seed, isOwn ? { studentId } : {});
  return cues.map((seconds) => seconds * 1_000);
}

/**
 * A session standing still at the session time of its newest event.
 *
 * @param studentIds who may be cued, absent ones too
 */
export function standingStill(
  session: Session,
  state: SessionState,
  studentIds: readonly string[],
): LiveSession {
  const { plan, seed } = session;
  const lengthMs = plan.lengthSeconds * 1_000;
  return {
    session,
    dueMs: state.isOwn ? [] : plannedCues(session),
    own: state.isOwn ? ownSchedule(plan, seed, studentIds) : [],
    lengthMs,
    time: sessionTime(state.atMs, lengthMs),
    calls: new Map(),
    ownCalls: new Map(),
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
