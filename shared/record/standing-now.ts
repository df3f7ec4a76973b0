import { isAsked, openCueOf, type SessionState } from "../session/state.ts";

/** Where a student stands at the cue that is being recorded. */
export type StandingNow = "absent" | "here" | "answered" | "away" | "waiting";

/**
 * Who has answered the newest cue, who was away at it, who has not answered, and who is absent. What was answered is not said: this
 * stands on a screen in the room. Before the first cue, and where cards are of paper, a student is just
 * here.
 *
 * @param records whether students record on a screen, so that an answer can be waited for
 *
 * Example: standingNow(stateBeforeAnyCue, "0190…", true) // "here"
 */
export function standingNow(state: SessionState, studentId: string, records: boolean): StandingNow {
  if (state.setAside.has(studentId)) return "absent";
  const openCue = openCueOf(state, studentId);
  if (!records || openCue === null) return "here";
  const value = state.marks.get(studentId)?.get(openCue)?.value ?? "none";
  if (value !== "none") return "answered";
  if (state.saidAway.get(studentId)?.has(openCue)) return "away";
  // Who came after the cue, or sits at a device that did not show it, was not asked.
  return isAsked(state, studentId, openCue) ? "waiting" : "here";
}
