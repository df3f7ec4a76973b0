import { cuesOf, type SessionState } from "../session/state.ts";

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
  const inOrder = [...cuesOf(state, studentId)].sort(([one], [other]) => one - other);
  const wasAbsent = inOrder.flatMap(([, record]) => {
    if (record.standing === "announced") return [];
    const isAway = record.aside.has(studentId);
    // An own cue of somebody absent reaches nobody, and says all the same that they were absent.
    return record.standing === "delivered" || (state.isOwn && isAway) ? [isAway] : [];
  });
  if (wasAbsent.every((absent) => absent) && isAbsent) return "absent";
  if (isAbsent) return "early";
  if (wasAbsent[0] === true) return "late";
  return wasAbsent.includes(true) ? "between" : "here";
}
