import type { CueCall, Session } from "../../../shared/api/sessions.ts";
import type { SessionCommand } from "../../../shared/session/decide.ts";
import type { SessionEvent, UndeliveredReason } from "../../../shared/session/event.ts";
import { replay } from "../../../shared/session/reduce.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import type { SessionLog } from "../../store/session-log.ts";
import type { DesktopClock } from "../base/clock.ts";
import { Missing } from "../base/refusal.ts";
import { eventHub } from "./event-hub.ts";
import { type LiveSession, sessionMsOf, standingStill } from "./live-session.ts";
import { obeyed } from "./log-door.ts";
import type { Sounders } from "./sounders.ts";

export interface ConductorOptions {
  readonly clock: DesktopClock;
  readonly log: Pick<SessionLog, "appendAll" | "read" | "openSessionId">;
  readonly sessionOf: (sessionId: string) => Session | null;
  /** Who may be cued in a session of own cues, in a settled order. */
  readonly studentIdsOf?: (session: Session) => readonly string[];
  /** Told after events were written, whoever asked for them. */
  readonly onWritten: (sessionId: string, events: readonly SessionEvent[]) => void;
  /** Told when a session starts running or stops (pause, end). */
  readonly onLive: (running: boolean) => void;
  /** Failures of work that nobody waits for; it is tried again at the next tick. */
  readonly report: (error: unknown) => void;
}

/** A student's own cue was called, or taken back. */
export type OwnCueCall =
  | {
      readonly kind: "announced";
      readonly studentId: string;
      readonly cue: number;
      readonly dueMonotonicMs: number;
    }
  | { readonly kind: "cancelled"; readonly studentId: string; readonly cue: number };

/** Follows the live session beside the sounding windows: students' own devices do. */
export interface SessionFollower {
  /** A cue was called, or taken back. */
  called(sessionId: string, call: Extract<CueCall, { readonly cue: number }>): void;
  calledOwn?(sessionId: string, call: OwnCueCall): void;
  /** Why no device said that it showed a student's own cue. */
  unshown?(sessionId: string, studentId: string, cue: number): UndeliveredReason;
  /** Events were written. */
  written(sessionId: string, events: readonly SessionEvent[]): void;
}

/**
 * What the conductor holds: the live session, the windows that sound it, and the log with those who
 * watch it. What time brings and what people ask both work on it.
 */
export type Desk = ReturnType<typeof conductorDesk>;

export function conductorDesk(options: ConductorOptions) {
  const { clock, log, sessionOf, onWritten, studentIdsOf = () => [] } = options;
  const windows = new Map<string, Sounders>();
  const hub = eventHub(log.read, canGrow);
  const followers = new Set<SessionFollower>();
  let live: LiveSession | null = null;

  function wrote(sessionId: string, events: readonly SessionEvent[]): void {
    onWritten(sessionId, events);
    for (const follower of followers) follower.written(sessionId, events);
  }

  /** Tells the window that gives the cues, and whoever follows. */
  function tellAll(sessionId: string, told: Extract<CueCall, { readonly cue: number }>): void {
    windows.get(sessionId)?.tell(told);
    for (const follower of followers) follower.called(sessionId, told);
  }

  function stateOf(sessionId: string): SessionState {
    return live?.session.id === sessionId ? live.state : replay(log.read(sessionId, 0));
  }

  /** Asks the rules, writes what they allow, then tells everybody. Throws Refusal. */
  function obey(sessionId: string, command: SessionCommand): SessionEvent[] {
    const held = live?.session.id === sessionId ? live : null;
    const state = stateOf(sessionId);
    const atMs = held === null ? state.atMs : sessionMsOf(held, clock.monotonicMs());
    const wallMs = clock.wallMs();
    const events = obeyed(log, sessionId, state, command, {
      stamp: { atMs, wallMs, offsetMinutes: clock.offsetMinutes() },
      sinceEndMs: sinceEnd(held, state),
    });
    if (events.length === 0) return [];
    if (held !== null) {
      held.state = replay(events, held.state);
      if (held.state.status === "ended") held.endedMonotonicMs ??= clock.monotonicMs();
    }
    hub.news();
    wrote(sessionId, events);
    return events;
  }

  function sinceEnd(held: LiveSession | null, state: SessionState): number {
    if (state.status !== "ended") return 0;
    const endedAt = held?.endedMonotonicMs ?? null;
    return endedAt === null ? Number.POSITIVE_INFINITY : clock.monotonicMs() - endedAt;
  }

  function canGrow(sessionId: string): boolean {
    return live?.session.id === sessionId || stateOf(sessionId).status !== "ended";
  }

  function release(): void {
    if (live === null) return;
    const { id } = live.session;
    live = null;
    closeWindows(id);
    hub.news();
  }

  function closeWindows(sessionId: string): void {
    windows.get(sessionId)?.close();
    windows.delete(sessionId);
  }

  return {
    windows,
    hub,
    followers,
    wrote,
    tellAll,
    stateOf,
    obey,
    release,
    closeWindows,

    live: (): LiveSession | null => live,

    /** Makes a session the live one, standing still at the session time of its newest event. */
    take(session: Session): LiveSession {
      release();
      live = standingStill(session, stateOf(session.id), studentIdsOf(session));
      return live;
    },

    /** The app closes: no word in the log, the next run offers to go on. */
    letGo(): void {
      live = null;
    },

    /** The session's facts. Throws Missing. */
    known(sessionId: string): Session {
      const session = sessionOf(sessionId);
      if (session === null) throw new Missing("session");
      return session;
    },

    /** The live session when it is this one and has not ended. */
    held(sessionId: string): LiveSession | null {
      return live?.session.id === sessionId && live.state.status !== "ended" ? live : null;
    },

    /**
     * The cues that were called and are still to come are taken back from the window.
     *
     * @param ahead how far ahead they are at least, in ms of the conductor's clock
     */
    takeBack: (held: LiveSession, ahead = 0): number[] =>
      takeBackFrom(held, clock.monotonicMs() + ahead, followers, tellAll),
  };
}

/** Takes back the calls of cues that come after a moment of the monotonic clock; which cues of the class they are. */
function takeBackFrom(
  { session, calls, ownCalls }: LiveSession,
  untilMs: number,
  followers: ReadonlySet<SessionFollower>,
  tellAll: (sessionId: string, told: Extract<CueCall, { readonly cue: number }>) => void,
): number[] {
  for (const [key, { own, dueMonotonicMs }] of [...ownCalls]) {
    if (dueMonotonicMs <= untilMs) continue;
    ownCalls.delete(key);
    const { studentId, cue } = own;
    for (const { calledOwn } of followers) {
      calledOwn?.(session.id, { kind: "cancelled", studentId, cue });
    }
  }
  const taken: number[] = [];
  for (const [cue, call] of [...calls]) {
    if (call.dueMonotonicMs <= untilMs) continue;
    calls.delete(cue);
    taken.push(cue);
    tellAll(session.id, { kind: "cancelled", cue });
  }
  return taken;
}
