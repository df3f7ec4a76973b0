import { type Conductor, conductor } from "../../../../../electron/services/live/conductor.ts";
import type { ConductorOptions } from "../../../../../electron/services/live/conductor-desk.ts";
import { plannedCues } from "../../../../../electron/services/live/live-session.ts";
import type { CueCall, CueMeans, Session } from "../../../../../shared/api/sessions.ts";
import { firstPlan, type PlanSettings } from "../../../../../shared/plan/plan.ts";
import type { SessionEvent, SessionEventBody } from "../../../../../shared/session/event.ts";
import { type ManualClock, manualClock } from "../../../../support/manual-clock.ts";

/** A log in memory, which can be told to fail as a full disk does. */
export function memoryLog(sessionId: string) {
  const events: SessionEvent[] = [];
  let failing = false;
  const appendAll: ConductorOptions["log"]["appendAll"] = (_, bodies, stamp) => {
    if (failing) throw new Error("disk full");
    const added = bodies.map((body, index) => ({
      stamp: { ...stamp, atMs: Math.round(stamp.atMs), seq: events.length + 1 + index },
      body,
    }));
    events.push(...added);
    return added;
  };
  return {
    events,
    fail(now: boolean) {
      failing = now;
    },
    log: {
      appendAll,
      append(id: string, body: SessionEventBody, stamp: Omit<SessionEvent["stamp"], "seq">) {
        const [event] = appendAll(id, [body], stamp);
        if (event === undefined) throw new Error("nothing written");
        return event;
      },
      read: (_: string, after: number) => events.filter(({ stamp }) => stamp.seq > after),
      openSessionId: () =>
        events.length > 0 && !events.some(({ body }) => body.kind === "ended") ? sessionId : null,
    },
  };
}

export const sessionId = "0190a000-0000-7000-8000-0000000000ff";

export const plan: PlanSettings = { ...firstPlan, lengthSeconds: 1_200 };

export function sessionWith(settings: PlanSettings = plan, seed = "rig"): Session {
  return {
    id: sessionId,
    groupId: "0190a000-0000-7000-8000-0000000000aa",
    groupName: "Invented class",
    kind: "seatwork",
    planName: "First plan",
    plan: settings,
    seed,
    startedMs: Date.UTC(2026, 0, 12, 9),
    offsetMinutes: 0,
    day: "2026-01-12",
  };
}

let windowsOpened = 0;

/** A window that sounds cues: it reports each at its due moment, unless told to be silent. */
export function soundingWindow(
  running: Conductor,
  clock: ManualClock,
  name = `window-${++windowsOpened}`,
  can: CueMeans = "sound",
) {
  const leaving = new AbortController();
  const calls: CueCall[] = [];
  /** Cues that rang, in order: the class heard these. */
  const rung: number[] = [];
  /** What a page would have been answered with: a full disk, for instance. */
  const refusedReports: unknown[] = [];
  const timers = new Map<number, () => void>();
  let reporting = true;
  const stream = running.cueCalls(sessionId, name, can, leaving.signal);

  function take(call: CueCall): void {
    calls.push(call);
    if (call.kind === "cancelled") timers.get(call.cue)?.();
    if (call.kind !== "announced") return;
    const ring = () => {
      if (leaving.signal.aborted) return;
      rung.push(call.cue);
      if (!reporting) return;
      const beganMonotonicMs = clock.monotonicMs();
      try {
        running.cueDelivered(sessionId, {
          cue: call.cue,
          beganMonotonicMs,
          by: "sound",
          problem: null,
        });
      } catch (error) {
        refusedReports.push(error);
      }
    };
    timers.set(call.cue, clock.after(call.dueMonotonicMs - clock.monotonicMs(), ring));
  }

  const listening = (async () => {
    for await (const call of stream) take(call);
  })();

  return {
    calls,
    rung,
    refusedReports,
    /** The page dies: its sounds with it. */
    leave() {
      leaving.abort();
      for (const cancel of timers.values()) cancel();
      return listening;
    },
    /** The page is closed: it takes back its sounds, says so, and goes. */
    close() {
      for (const cancel of timers.values()) cancel();
      running.leaveCues(sessionId, name);
      return listening;
    },
    /** It can now do more or less for a cue. */
    means(can: CueMeans) {
      running.cueMeans(sessionId, name, can);
    },
    report(now: boolean) {
      reporting = now;
    },
  };
}

export function rig(options: { session?: Session; clock?: ManualClock; wait?: boolean } = {}) {
  const session = options.session ?? sessionWith();
  const clock = options.clock ?? manualClock();
  const memory = memoryLog(session.id);
  const live: boolean[] = [];
  const errors: unknown[] = [];
  const open = () =>
    conductor({
      clock,
      log: memory.log,
      sessionOf: (id) => (id === session.id ? session : null),
      onWritten: () => {},
      onLive: (running) => live.push(running),
      report: (error) => errors.push(error),
    });
  const running = open();
  return {
    session,
    clock,
    memory,
    live,
    errors,
    running,
    /** The app starts again with the same log, as after a crash. */
    reopen: open,
    dueMs: plannedCues(session),
    begin() {
      memory.log.append(session.id, { kind: "begun" }, stampOf(clock));
      running.start(session);
    },
    kinds: () => memory.events.map(({ body }) => body.kind),
    verdicts: () => verdictsOf(memory.events),
  };
}

const stampOf = (clock: ManualClock) => ({
  atMs: 0,
  wallMs: clock.wallMs(),
  offsetMinutes: clock.offsetMinutes(),
});

/** What became of each cue: "delivered" or the reason why not. */
export function verdictsOf(events: readonly SessionEvent[]): Map<number, string> {
  const verdicts = new Map<number, string>();
  for (const { body } of events) {
    if (body.kind === "delivered") verdicts.set(body.cue, "delivered");
    if (body.kind === "undelivered") verdicts.set(body.cue, body.reason);
  }
  return verdicts;
}

/** Lets streams hand over what is ready. */
export const settle = async () => {
  for (let turn = 0; turn < 20; turn++) await Promise.resolve();
};

/** Lets real time pass in small steps, so that windows hear what is said on the way. */
export async function pass(clock: ManualClock, realMs: number, stepMs = 100): Promise<void> {
  for (let left = realMs; left > 0; left -= stepMs) {
    clock.advance(Math.min(stepMs, left));
    await settle();
  }
}
