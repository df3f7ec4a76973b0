import type { OwnCue } from "../../../shared/schedule/own-schedule.ts";
import type { UndeliveredReason } from "../../../shared/session/event.ts";
import type { ConductorOptions, Desk } from "./conductor-desk.ts";
import type { GapWatch } from "./gap-watch.ts";
import { type LiveSession, ownKey } from "./live-session.ts";

/** How far ahead a device hears of its cue, and until when it may say that it was shown; in ms of real time. */
interface Limits {
  readonly aheadMs: number;
  readonly withinMs: number;
  readonly callableMs: number;
}

/**
 * The moment, in ms of the monotonic clock, that lies so much before the next of the students' own cues; an empty
 * list when none is left.
 */
function nextMoment({ own, time }: LiveSession, now: number, earlierMs: number): number[] {
  for (const { seconds } of own) {
    const at = time.momentOf(seconds * 1_000);
    if (at !== null && at - earlierMs > now) return [at - earlierMs];
  }
  return [];
}

/**
 * Students' own cues in a live session. Several may be open at once; each is told to whoever follows for its
 * one student and to no window, because a window's sign would tell the class who is asked. A student
 * without a device whose desk an adult touches has theirs at the moment of the printed key; how late the
 * hand came nobody knows.
 */
export function ownCues(
  desk: Desk,
  { clock }: Pick<ConductorOptions, "clock">,
  gaps: GapWatch,
  { aheadMs, withinMs, callableMs }: Limits,
) {
  const real = (ms: number): number => ms * clock.speed;

  /** Why nothing was heard of a cue that was told: whoever tells devices knows. */
  function whyUnheard(sessionId: string, { studentId, cue }: OwnCue): UndeliveredReason {
    for (const { unshown } of desk.followers) {
      const reason = unshown?.(sessionId, studentId, cue);
      if (reason !== undefined) return reason;
    }
    return "seat-absent";
  }

  /** A cue whose moment could not be kept reached nobody. */
  function missed(held: LiveSession, { studentId, cue }: OwnCue, reason: UndeliveredReason): void {
    desk.obey(held.session.id, { kind: "leave-undelivered", studentId, cue, reason });
  }

  /** What is to be done about one cue that is near. */
  function takeUp(held: LiveSession, own: OwnCue, due: number, now: number): void {
    const { studentId, cue } = own;
    const { id } = held.session;
    if (now > due + real(callableMs)) {
      missed(held, own, gaps.reasonAt(due) === "asleep" ? "asleep" : "no-report");
    } else if (held.state.setAside.has(studentId)) {
      if (now >= due) missed(held, own, "seat-absent");
    } else if (held.state.byTouch.has(studentId)) {
      if (now < due) return;
      const by = { by: "touch", latenessMs: null, problem: null } as const;
      desk.obey(id, { kind: "deliver", studentId, cue, ...by });
    } else if (!isCallAhead(held, studentId, now)) {
      desk.obey(id, { kind: "announce", studentId, cue });
      held.ownCalls.set(ownKey(own), {
        own,
        dueMonotonicMs: due,
        deadlineMonotonicMs: due + real(withinMs),
        reason: "no-report",
      });
      for (const { calledOwn } of desk.followers) {
        calledOwn?.(id, { kind: "announced", studentId, cue, dueMonotonicMs: due });
      }
    }
  }

  /** A device knows of its next cue, and not of the one after that. */
  const isCallAhead = ({ ownCalls }: LiveSession, studentId: string, now: number): boolean =>
    [...ownCalls.values()].some(
      (call) => call.own.studentId === studentId && call.dueMonotonicMs > now,
    );

  const hasVerdict = ({ state }: LiveSession, { studentId, cue }: OwnCue): boolean => {
    const standing = state.ownCues.get(studentId)?.get(cue)?.standing;
    return standing === "delivered" || standing === "undelivered";
  };

  return {
    /** Tells each device of its next cue when that is near. */
    call(held: LiveSession): void {
      for (const own of held.own) {
        if (held.state.status !== "running") return;
        const due = held.time.momentOf(own.seconds * 1_000);
        const now = clock.monotonicMs();
        if (due === null || now < due - real(aheadMs)) return;
        if (held.ownCalls.has(ownKey(own)) || hasVerdict(held, own)) continue;
        takeUp(held, own, due, now);
      }
    },

    /** A cue that no device said it showed reached nobody. */
    settle(held: LiveSession): void {
      const now = clock.monotonicMs();
      for (const [key, call] of [...held.ownCalls]) {
        if (now < call.deadlineMonotonicMs) continue;
        const { id } = held.session;
        missed(
          held,
          call.own,
          call.reason === "no-report" ? whyUnheard(id, call.own) : call.reason,
        );
        held.ownCalls.delete(key);
      }
    },

    /** The moments at which something is to be done, on the monotonic clock. */
    moments(held: LiveSession, now: number): number[] {
      const deadlines = [...held.ownCalls.values()].map((call) => call.deadlineMonotonicMs);
      return [...deadlines, ...nextMoment(held, now, 0), ...nextMoment(held, now, real(aheadMs))];
    },

    /** A device says when it showed its student's cue; saying it again, or after the verdict, changes nothing. */
    shown(
      sessionId: string,
      told: { readonly studentId: string; readonly cue: number; readonly beganMonotonicMs: number },
    ): void {
      const { studentId, cue, beganMonotonicMs } = told;
      const held = desk.held(sessionId);
      const call = held?.ownCalls.get(ownKey(told));
      if (held === null || call === undefined) return;
      const late = beganMonotonicMs - call.dueMonotonicMs;
      if (late > real(withinMs)) missed(held, call.own, "no-report");
      else {
        const latenessMs = late / clock.speed;
        const by = { by: "sight", latenessMs, problem: null } as const;
        desk.obey(sessionId, { kind: "deliver", studentId, cue, ...by });
      }
      held.ownCalls.delete(ownKey(told));
    },
  };
}
