import { type Conductor, conductor } from "../../../../../electron/services/live/conductor.ts";
import type {
  OwnCueCall,
  SessionFollower,
} from "../../../../../electron/services/live/conductor-desk.ts";
import type { PlanSettings } from "../../../../../shared/plan/plan.ts";
import type { SessionEventBody, UndeliveredReason } from "../../../../../shared/session/event.ts";
import { replay } from "../../../../../shared/session/reduce.ts";
import { type ManualClock, manualClock } from "../../../../support/manual-clock.ts";
import { memoryLog, plan, sessionWith } from "./rig.ts";

export const own: PlanSettings = { ...plan, cueing: "own" };
export const ids = Array.from(
  { length: 24 },
  (_, at) => `0190a000-0000-7000-8000-0000000000${String(at + 10)}`,
);

/** A room in which each student's device shows what it is told of at its moment, unless it sleeps. */
export function ownRoom(
  options: {
    readonly byTouch?: readonly string[];
    readonly aside?: readonly string[];
    readonly settings?: PlanSettings;
    readonly students?: readonly string[];
  } = {},
) {
  const clock: ManualClock = manualClock();
  const session = sessionWith(options.settings ?? own, "twenty-four");
  const students = options.students ?? ids;
  /** What the desktop side would say of a device's word that could not be written. */
  const unwritten: unknown[] = [];
  const memory = memoryLog(session.id);
  const calls: OwnCueCall[] = [];
  const asleep = new Map<string, UndeliveredReason>();
  const open = () =>
    conductor({
      clock,
      log: memory.log,
      sessionOf: (id) => (id === session.id ? session : null),
      studentIdsOf: () => students,
      onWritten: () => {},
      onLive: () => {},
      report: (error) => unwritten.push(error),
    });
  const timers = new Map<string, () => void>();
  /** The devices outlive a crash of the app, and join again. */
  const follow = (running: Conductor): Conductor => {
    running.follow(followerOf(running));
    return running;
  };
  const followerOf = (running: Conductor): SessionFollower => ({
    called: () => {
      throw new Error("no cue is the class's");
    },
    written: () => {},
    unshown: (_, studentId) => asleep.get(studentId) ?? "no-report",
    calledOwn(id, call) {
      calls.push(call);
      const { studentId, cue } = call;
      const name = `${studentId}/${cue}`;
      timers.get(name)?.();
      if (call.kind === "cancelled") return;
      const show = () => {
        if (asleep.has(studentId)) return;
        const beganMonotonicMs = clock.monotonicMs();
        try {
          running.ownCueShown(id, { studentId, cue, beganMonotonicMs });
        } catch (error) {
          unwritten.push(error);
        }
      };
      timers.set(name, clock.after(call.dueMonotonicMs - clock.monotonicMs(), show));
    },
  });
  const running = follow(open());
  const say = (body: SessionEventBody) =>
    memory.log.append(session.id, body, {
      atMs: 0,
      wallMs: clock.wallMs(),
      offsetMinutes: clock.offsetMinutes(),
    });
  return {
    clock,
    memory,
    running,
    calls,
    asleep,
    unwritten,
    reopen: () => follow(open()),
    begin() {
      say({ kind: "begun", cueing: "own" });
      for (const studentId of options.byTouch ?? []) say({ kind: "by-touch", studentId });
      for (const studentId of options.aside ?? []) say({ kind: "set-aside", studentId });
      running.start(session);
    },
    state: () => replay(memory.events),
  };
}
