import { cameThrough, cuesOf, isAsked, type SessionState } from "../session/state.ts";

/** Marks of one student in one session; `missing` are delivered cues without a mark. */
export interface MarkCounts {
  readonly on: number;
  readonly off: number;
  readonly missing: number;
}

/**
 * How often a student recorded on task, off task or nothing in one session.
 *
 * Where each has cues of their own, theirs alone count. Only delivered cues count, so on + off + missing never exceeds their number. A cue at which the
 * student was set aside, or which the student's own device did not show, is missing for nobody. Totals from a card stand for the student's whole card:
 * they replace box-by-box marks, and what they leave of the delivered cues is missing. A total larger
 * than the number of cues is counted as it was written, with nothing missing; the grid asks about it.
 *
 * Null when the student took no part: set aside or not reached at every delivered cue, or after the end (an absent
 * student's card), and no mark.
 */
export function selfCounts(state: SessionState, studentId: string): MarkCounts | null {
  const total = state.totals.get(studentId);
  const marks = state.marks.get(studentId);
  let on = 0;
  let off = 0;
  let silent = 0;
  let delivered = 0;
  const ofStudent = cuesOf(state, studentId);
  for (const cue of ofStudent.keys()) {
    if (!cameThrough(state, studentId, cue)) continue;
    delivered++;
    const value = marks?.get(cue)?.value ?? "none";
    if (value === "on") on++;
    else if (value === "off") off++;
    else if (isAsked(state, studentId, cue)) silent++;
  }
  if (total !== undefined) {
    const missing = Math.max(0, on + off + silent - total.on - total.off);
    return { on: total.on, off: total.off, missing };
  }
  if (on + off === 0 && state.away.has(studentId)) return null;
  // Of own cues none came through to this student: there was nothing to record.
  if (on + off + silent === 0 && (delivered > 0 || state.isOwn)) return null;
  return { on, off, missing: silent };
}

/**
 * What the first observer saw of a student: on, off, and `missing` for the cues at which the observer
 * looked and could not see. Null when the student was not observed in this session.
 */
export function observerCounts(state: SessionState, studentId: string): MarkCounts | null {
  let on = 0;
  let off = 0;
  let missing = 0;
  for (const { studentId: observed, observer, value } of state.observed.values()) {
    if (observed !== studentId || observer !== 1) continue;
    if (value === "on") on++;
    else if (value === "off") off++;
    else missing++;
  }
  return on + off + missing === 0 ? null : { on, off, missing };
}
