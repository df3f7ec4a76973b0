import type { ConductorClock, CueCall, Session } from "../../../shared/api/sessions.ts";
import { sessionSchedule } from "../../../shared/schedule/session-schedule.ts";
import { lastMarksMs, type SessionCommand } from "../../../shared/session/decide.ts";
import type { SessionEvent, UndeliveredReason } from "../../../shared/session/event.ts";
import { replay } from "../../../shared/session/reduce.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import type { SessionLog } from "../../store/session-log.ts";
import type { Cancel, DesktopClock } from "../base/clock.ts";
import { Missing } from "../base/refusal.ts";
import { eventHub } from "./event-hub.ts";
import { obeyed } from "./log-door.ts";
import { sessionRefusal } from "./session-refusals.ts";
import { type SessionTime, sessionTime } from "./session-time.ts";
import { type Gap, pausingGapMs, sleepWatch } from "./sleep-watch.ts";
import { type Sounders, sounders } from "./sounders.ts";

/** How often the conductor looks at both clocks, in ms of real time; all lengths below likewise. */
const tickMs = 250;
/** A window hears of a cue this long ahead, so that it can put the sound on its audio clock. */
const callAheadMs = 2_500;
/** A cue of which no window has reported this long after its moment reached nobody we know of. */
const reportWithinMs = 3_000;
/** A cue that could not be called by this long after its moment is too late to sound. */
const callableMs = 500;
/** After sleep, reports that lay waiting get this long to be read. */
const graceAfterGapMs = 1_000;

/** A cue that a window was told of and that has no verdict yet. */
interface Call {
  readonly dueMonotonicMs: number;
  deadlineMonotonicMs: number;
  reason: UndeliveredReason;
}

/** The one session that runs, is paused, or has just ended and still takes its last marks. */
interface LiveSession {
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

export interface ConductorOptions {
  readonly clock: DesktopClock;
  readonly log: Pick<SessionLog, "appendAll" | "read" | "openSessionId">;
  readonly sessionOf: (sessionId: string) => Session | null;
  /** Told after events were written, whoever asked for them. */
  readonly onWritten: (sessionId: string, events: readonly SessionEvent[]) => void;
  /** Told when a session starts running or stops (pause, end). */
  readonly onLive: (running: boolean) => void;
  /** Failures of work that nobody waits for; it is tried again at the next tick. */
  readonly report: (error: unknown) => void;
}

/** Runs the one live session. All that is said of any session while the app runs goes through it. */
export type Conductor = ReturnType<typeof conductor>;

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

/**
 * Every event is on the disk before anybody is told of it. `announced` is written before a window hears
 * of the cue, so after a crash no cue can sound twice. All work that time brings is done by `advance`,
 * which may be called at any moment and does what is due by then: timers only decide how soon.
 *
 * A pause takes back a cue that was called and is not due yet. It comes after the resume, at its own
 * session time, and is announced again then; should it have sounded all the same, the report counts it.
 */
export function conductor(options: ConductorOptions) {
  const { clock, log, sessionOf, onWritten, onLive, report } = options;
  const real = (ms: number): number => ms * clock.speed;
  const watch = sleepWatch(clock, tickMs);
  const windows = new Map<string, Sounders>();
  const hub = eventHub(log.read, canGrow);
  let live: LiveSession | null = null;
  let timer: Cancel = () => {};
  let lastGapEndMs = Number.NEGATIVE_INFINITY;
  let wasRunning = false;
  let failing = false;
  const stopping = new AbortController();

  recover();

  // ── the log ────────────────────────────────────────────────────────────────────────────────────

  function stateOf(sessionId: string): SessionState {
    return live?.session.id === sessionId ? live.state : replay(log.read(sessionId, 0));
  }

  /** Asks the rules, writes what they allow, then tells everybody. Throws Refusal. */
  function obey(sessionId: string, command: SessionCommand): SessionEvent[] {
    const held = live?.session.id === sessionId ? live : null;
    const state = stateOf(sessionId);
    const atMs = held === null ? state.atMs : timeOf(held);
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
    onWritten(sessionId, events);
    return events;
  }

  /** Session time never runs behind the log, whatever the clocks did. */
  const timeOf = (held: LiveSession): number =>
    Math.max(held.state.atMs, held.time.at(clock.monotonicMs()));

  function sinceEnd(held: LiveSession | null, state: SessionState): number {
    if (state.status !== "ended") return 0;
    const endedAt = held?.endedMonotonicMs ?? null;
    return endedAt === null ? Number.POSITIVE_INFINITY : clock.monotonicMs() - endedAt;
  }

  function canGrow(sessionId: string): boolean {
    return live?.session.id === sessionId || stateOf(sessionId).status !== "ended";
  }

  // ── starting, and finding again ────────────────────────────────────────────────────────────────

  /** An earlier run left a session open: settle what it was in the middle of, and wait for the teacher. */
  function recover(): void {
    const id = log.openSessionId();
    if (id !== null) obey(id, { kind: "recover" });
  }

  /** Makes a session the live one, standing still at the session time of its newest event. */
  function take(session: Session): LiveSession {
    release();
    const state = stateOf(session.id);
    const lengthMs = session.plan.lengthSeconds * 1_000;
    live = {
      session,
      dueMs: plannedCues(session),
      lengthMs,
      time: sessionTime(state.atMs, lengthMs),
      calls: new Map(),
      state,
      pauseOwed: null,
      endedMonotonicMs: null,
    };
    return live;
  }

  function release(): void {
    if (live === null) return;
    const { id } = live.session;
    live = null;
    closeWindows(id);
    hub.news();
  }

  function run(held: LiveSession): void {
    watch.look();
    held.pauseOwed = null;
    held.time.start(clock.monotonicMs());
    advance();
  }

  // ── what time brings ───────────────────────────────────────────────────────────────────────────

  function advance(): void {
    timer();
    tellIfRunning();
    if (live === null || stopping.signal.aborted) return;
    try {
      noticeGap(live);
      logGap(live);
      settleOverdue(live);
      callCues(live);
      finish(live);
      failing = false;
    } catch (error) {
      // A full disk stays full for many ticks; once is enough to say so.
      if (!failing) report(error);
      failing = true;
    }
    tellIfRunning();
    if (live !== null) timer = clock.after(nextWakeIn(live), advance);
  }

  function tellIfRunning(): void {
    const running = live !== null && live.state.status === "running";
    if (running === wasRunning) return;
    wasRunning = running;
    onLive(running);
  }

  function noticeGap(held: LiveSession): void {
    const gap = watch.look();
    if (gap === null) return;
    if (gap.kind === "stalled") {
      lastGapEndMs = clock.monotonicMs();
      for (const call of held.calls.values()) excuse(call);
    }
    if (gap.realMs > pausingGapMs && held.state.status === "running") stopForGap(held, gap);
  }

  /** A cue whose moment passed during sleep: its report may still be waiting to be read. */
  function excuse(call: Call): void {
    if (call.dueMonotonicMs > clock.monotonicMs()) return;
    call.reason = "asleep";
    call.deadlineMonotonicMs = clock.monotonicMs() + real(graceAfterGapMs);
  }

  /** The class was not working while the computer slept, so session time stops where the gap began. */
  function stopForGap(held: LiveSession, gap: Gap): void {
    const slept = gap.kind === "stalled";
    held.time.stop(slept ? gap.fromMonotonicMs : clock.monotonicMs());
    held.pauseOwed = slept ? "asleep" : "clock-changed";
    takeBack(held);
  }

  /** A window woke from sleep and shows now what was due before it: at its moment nobody was asked. */
  function comesTooLate(sessionId: string, cue: number, problem: string | null): void {
    // Notices the gap first, so that the reason is known.
    advance();
    const reason = held(sessionId)?.calls.get(cue)?.reason ?? "no-report";
    const said = problem === null ? {} : { problem };
    obey(sessionId, { kind: "give-up", cue, reason, ...said });
    held(sessionId)?.calls.delete(cue);
    advance();
  }

  function logGap(held: LiveSession): void {
    if (held.pauseOwed === null) return;
    obey(held.session.id, { kind: "pause", reason: held.pauseOwed });
    held.pauseOwed = null;
  }

  function settleOverdue(held: LiveSession): void {
    const now = clock.monotonicMs();
    for (const [cue, call] of [...held.calls]) {
      if (now < call.deadlineMonotonicMs) continue;
      obey(held.session.id, { kind: "give-up", cue, reason: call.reason });
      held.calls.delete(cue);
    }
  }

  /** Tells the sounding window of the next cue when it is near; never of two that are both still to come. */
  function callCues(held: LiveSession): void {
    while (held.state.status === "running" && held.time.running) {
      const cue = nextCue(held);
      const due = cue === null ? null : momentOfCue(held, cue);
      if (cue === null || due === null) return;
      const now = clock.monotonicMs();
      const open = windows.get(held.session.id);
      if (now > due + real(callableMs) || (now >= due && !open?.present)) {
        const reason = due <= lastGapEndMs ? "asleep" : "no-window";
        obey(held.session.id, { kind: "give-up", cue, reason });
        continue;
      }
      if (!open?.present || now < due - real(callAheadMs) || isCallAhead(held)) return;
      obey(held.session.id, { kind: "announce", cue });
      held.calls.set(cue, {
        dueMonotonicMs: due,
        deadlineMonotonicMs: due + real(reportWithinMs),
        reason: "no-report",
      });
      open.tell({ kind: "due", cue, dueMonotonicMs: due });
    }
  }

  const isCallAhead = (held: LiveSession): boolean =>
    [...held.calls.values()].some((call) => call.dueMonotonicMs > clock.monotonicMs());

  /** The first planned cue without a verdict of which no window knows; null when there is none. */
  function nextCue({ dueMs, state, calls }: LiveSession): number | null {
    for (let cue = (state.openCue ?? 0) + 1; cue <= dueMs.length; cue++) {
      const standing = state.cues.get(cue)?.standing;
      if (standing !== "delivered" && standing !== "undelivered" && !calls.has(cue)) return cue;
    }
    return null;
  }

  function momentOfCue(held: LiveSession, cue: number): number | null {
    const due = held.dueMs[cue - 1];
    return due === undefined ? null : held.time.momentOf(due);
  }

  /** The cues that were called and are still to come are taken back from the window. */
  function takeBack(held: LiveSession): number[] {
    const taken: number[] = [];
    for (const [cue, call] of [...held.calls]) {
      if (call.dueMonotonicMs <= clock.monotonicMs()) continue;
      held.calls.delete(cue);
      taken.push(cue);
      windows.get(held.session.id)?.tell({ kind: "cancelled", cue });
    }
    return taken;
  }

  function finish(held: LiveSession): void {
    if (held.endedMonotonicMs !== null) {
      if (clock.monotonicMs() - held.endedMonotonicMs > lastMarksMs) release();
      return;
    }
    if (held.state.status !== "running" || timeOf(held) < held.lengthMs) return;
    // A cue near the end still gets its verdict.
    if (held.calls.size > 0) return;
    close(held, "finished");
  }

  function close(held: LiveSession, reason: "finished" | "teacher"): void {
    takeBack(held);
    obey(held.session.id, { kind: "end", reason });
    held.calls.clear();
    held.time.stop(clock.monotonicMs());
    closeWindows(held.session.id);
  }

  function closeWindows(sessionId: string): void {
    windows.get(sessionId)?.close();
    windows.delete(sessionId);
  }

  /** Until the next thing that is due, and never longer than a tick. */
  function nextWakeIn(held: LiveSession): number {
    const now = clock.monotonicMs();
    const cue = held.time.running ? nextCue(held) : null;
    const due = cue === null ? null : momentOfCue(held, cue);
    const moments = [...held.calls.values()].flatMap((call) => [
      call.dueMonotonicMs,
      call.deadlineMonotonicMs,
    ]);
    if (due !== null) moments.push(due - real(callAheadMs), due);
    const end = held.time.momentOf(held.lengthMs);
    if (end !== null) moments.push(end);
    const ahead = moments.map((moment) => moment - now).filter((ms) => ms > 0);
    return Math.min(real(tickMs), ...ahead);
  }

  // ── what people ask ────────────────────────────────────────────────────────────────────────────

  function known(sessionId: string): Session {
    const session = sessionOf(sessionId);
    if (session === null) throw new Missing("session");
    return session;
  }

  /** The live session when it is this one and has not ended. */
  function held(sessionId: string): LiveSession | null {
    return live?.session.id === sessionId && live.state.status !== "ended" ? live : null;
  }

  return {
    stateOf,

    /** The id of the session that is running or paused in this run of the app, or null. */
    liveId(): string | null {
      return live === null || live.state.status === "ended" ? null : live.session.id;
    },

    /** Runs a session whose `begun` is in the log. */
    start(session: Session): void {
      const held = take(session);
      onWritten(session.id, log.read(session.id, 0));
      run(held);
    },

    /** Looks at the store again after something was erased from it. */
    refresh(): void {
      if (live === null) return;
      if (sessionOf(live.session.id) === null) release();
      else live.state = replay(log.read(live.session.id, 0));
      advance();
    },

    /** Lets the rules decide on what someone asks; returns what was written. Throws Refusal, Missing. */
    command(sessionId: string, command: SessionCommand): SessionEvent[] {
      known(sessionId);
      advance();
      const events = obey(sessionId, command);
      advance();
      return events;
    },

    pause(sessionId: string): void {
      known(sessionId);
      advance();
      obey(sessionId, { kind: "pause", reason: "teacher" });
      const session = held(sessionId);
      if (session !== null) {
        session.time.stop(clock.monotonicMs());
        takeBack(session);
      }
      advance();
    },

    /** Goes on with a paused session; one that an earlier run left open becomes the live one. */
    resume(sessionId: string): void {
      const session = known(sessionId);
      advance();
      obey(sessionId, { kind: "resume" });
      run(held(sessionId) ?? take(session));
    },

    end(sessionId: string): void {
      known(sessionId);
      advance();
      const session = held(sessionId);
      if (session !== null) close(session, "teacher");
      else {
        obey(sessionId, { kind: "end", reason: "closed-later" });
        closeWindows(sessionId);
      }
      advance();
    },

    /** Leaves out the next cue that is still to come, and says which. */
    skip(sessionId: string): number {
      known(sessionId);
      advance();
      const session = held(sessionId);
      if (session === null) {
        const { status } = stateOf(sessionId);
        throw sessionRefusal(status === "ended" ? "session-ended" : "session-not-running");
      }
      const cue = takeBack(session)[0] ?? nextCue(session);
      if (cue === null) throw sessionRefusal("cue-unknown");
      obey(sessionId, { kind: "give-up", cue, reason: "skipped" });
      advance();
      return cue;
    },

    /**
     * A window says when a cue really began. Saying it again, or after the verdict, changes nothing; one that
     * began seconds after its moment, on waking, counts as not delivered.
     */
    cueBegan(
      sessionId: string,
      told: {
        readonly cue: number;
        readonly beganMonotonicMs: number;
        readonly by: "sound" | "sight";
        readonly problem: string | null;
      },
    ): void {
      known(sessionId);
      const call = held(sessionId)?.calls.get(told.cue);
      const late = call === undefined ? null : told.beganMonotonicMs - call.dueMonotonicMs;
      const latenessMs = late === null ? null : late / clock.speed;
      const { cue, by, problem } = told;
      if (late !== null && late > real(reportWithinMs)) {
        comesTooLate(sessionId, cue, problem);
        return;
      }
      obey(sessionId, { kind: "deliver", cue, by, latenessMs, problem });
      held(sessionId)?.calls.delete(cue);
      advance();
    },

    /** A window says that neither sound nor sight reached anyone. */
    cueFailed(sessionId: string, cue: number, problem: string | null): void {
      known(sessionId);
      if (!stateOf(sessionId).cues.has(cue)) throw sessionRefusal("cue-unknown");
      const call = held(sessionId)?.calls.get(cue);
      if (call !== undefined && clock.monotonicMs() > call.dueMonotonicMs + real(reportWithinMs)) {
        comesTooLate(sessionId, cue, problem);
        return;
      }
      const said = problem === null ? {} : { problem };
      obey(sessionId, { kind: "give-up", cue, reason: "sound-failed", ...said });
      held(sessionId)?.calls.delete(cue);
      advance();
    },

    /** See `EventHub`. */
    watch(sessionId: string, after: number, signal: AbortSignal) {
      known(sessionId);
      return hub.watch(sessionId, after, AbortSignal.any([signal, stopping.signal]));
    },

    /** Cue calls for one window; ends with the session. */
    cueCalls(
      sessionId: string,
      signal: AbortSignal,
    ): AsyncIterableIterator<CueCall, undefined, undefined> {
      known(sessionId);
      let joined = windows.get(sessionId);
      if (joined === undefined) {
        joined = sounders(() => queueMicrotask(advance));
        if (stateOf(sessionId).status === "ended") joined.close();
        else windows.set(sessionId, joined);
      }
      return joined.join(signal);
    },

    clockNow(): ConductorClock {
      return {
        monotonicMs: clock.monotonicMs(),
        speed: clock.speed,
        sessionMs: live === null ? null : timeOf(live),
        running: live !== null && live.state.status === "running",
      };
    },

    /** The computer says it is about to sleep. It may say so late, twice or for nothing. */
    suspend(): void {
      advance();
      if (live === null || live.state.status !== "running") return;
      obey(live.session.id, { kind: "pause", reason: "asleep" });
      live.time.stop(clock.monotonicMs());
      takeBack(live);
      tellIfRunning();
    },

    /** The computer says it is awake again. */
    wake: advance,

    /** Stops without a word in the log: the next run offers to go on. */
    stop(): void {
      timer();
      stopping.abort();
      for (const open of windows.values()) open.close();
      windows.clear();
      hub.news();
      if (wasRunning) onLive(false);
      wasRunning = false;
      live = null;
    },
  };
}
