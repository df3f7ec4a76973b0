import { deliveredCues, type SessionState } from "../session/state.ts";

/** Whether a student was there: all the time, not at all, or for a part of the session. */
export type Presence = "here" | "absent" | "late" | "early" | "between";

/**
 * Where a student was while a session's cues came, from the presses that marked the student absent and
 * here. Before the first cue only the present standing is known; a student marked absent after the end
 * was absent throughout, unless there is something of theirs: then the card says that they were there.
 *
 * Example: presenceOf(stateOfALogWithoutAbsences, "0190…") // "here"
 */
export function presenceOf(state: SessionState, studentId: string): Presence {
  if (state.away.has(studentId)) return "absent";
  const isAbsent = state.setAside.has(studentId);
  const wasAbsent = deliveredCues(state).map((cue) => {
    const record = state.cues.get(cue);
    return record?.standing === "delivered" && record.aside.has(studentId);
  });
  if (wasAbsent.every((absent) => absent) && isAbsent) return "absent";
  if (isAbsent) return "early";
  if (wasAbsent[0] === true) return "late";
  return wasAbsent.includes(true) ? "between" : "here";
}
