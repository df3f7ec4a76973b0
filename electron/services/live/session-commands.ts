import type { Handlers } from "../base/handlers.ts";
import type { Conductor } from "./conductor.ts";

type Said = Pick<
  Handlers["sessions"],
  | "interruption"
  | "mark"
  | "sayAway"
  | "setAside"
  | "spotCheck"
  | "observe"
  | "leaveOut"
  | "takeIn"
  | "note"
>;

/**
 * What is said of a session: each is one command to its rules.
 *
 * @param checkStudent throws Refusal or Missing for a student who is not of the session's group
 */
export function sessionCommands(
  conductor: Conductor,
  checkStudent: (sessionId: string, studentId: string) => void,
): Said {
  return {
    interruption({ sessionId, note }) {
      conductor.command(sessionId, { kind: "interruption", note });
      return {};
    },
    mark({ sessionId, studentId, cue, value }) {
      checkStudent(sessionId, studentId);
      conductor.command(sessionId, { kind: "mark", studentId, cue, value, way: "screen" });
      // Asked from the state: a mark sent twice is written once and answered alike.
      const state = conductor.stateOf(sessionId);
      const mark = state.marks.get(studentId)?.get(cue);
      return { seq: mark?.seq ?? state.lastSeq, late: mark?.late ?? false };
    },
    sayAway({ sessionId, studentId, cue, away }) {
      checkStudent(sessionId, studentId);
      conductor.command(sessionId, { kind: "say-away", studentId, cue, away });
      return {};
    },
    setAside({ sessionId, studentId, aside }) {
      checkStudent(sessionId, studentId);
      conductor.command(sessionId, { kind: "set-aside", studentId, aside });
      return {};
    },
    spotCheck({ sessionId, studentId, cue, value }) {
      checkStudent(sessionId, studentId);
      conductor.command(sessionId, { kind: "spot-check", studentId, cue, value });
      return {};
    },
    observe({ sessionId, studentId, cue, value, observer }) {
      checkStudent(sessionId, studentId);
      conductor.command(sessionId, { kind: "observe", studentId, cue, value, observer });
      return {};
    },
    leaveOut({ sessionId, reason, isTrial }) {
      conductor.command(sessionId, { kind: "leave-out", reason, isTrial });
      return {};
    },
    takeIn({ sessionId }) {
      conductor.command(sessionId, { kind: "take-in" });
      return {};
    },
    note({ sessionId, text }) {
      conductor.command(sessionId, { kind: "note", text });
      return {};
    },
  };
}
