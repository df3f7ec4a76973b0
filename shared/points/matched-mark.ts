import { cuesOf, type SessionState, type SpotCheckRecord } from "../session/state.ts";

/**
 * How many marks of a student equal a spot check of the same cue, yes or no alike.
 *
 * The mark that counts is the one that stood at the check, or for a check answered late the one that stood
 * when the next cue came; where none stood, the first entered afterwards, from a card too. What is changed
 * later does not count, so nobody gains by waiting for the check. A check corrected afterwards counts with
 * its newest word, at its first moment.
 *
 * Example: matchedMarks(state, studentId) // 3
 */
export function matchedMarks(state: SessionState, studentId: string): number {
  let matched = 0;
  for (const { cue, first, newest } of checksOf(state.spotChecks, studentId)) {
    if (newest.value === "unseen") continue;
    if (markAt(state, studentId, cue, first.seq) === newest.value) matched++;
  }
  return matched;
}

interface CheckOfCue {
  readonly cue: number;
  readonly first: SpotCheckRecord;
  readonly newest: SpotCheckRecord;
}

function checksOf(checks: readonly SpotCheckRecord[], studentId: string): CheckOfCue[] {
  const found = new Map<number, CheckOfCue>();
  for (const check of checks) {
    const { cue } = check;
    if (cue === null || check.studentId !== studentId) continue;
    const before = found.get(cue)?.first;
    // An answer that nothing was seen is no moment of a check yet.
    const first = before === undefined || before.value === "unseen" ? check : before;
    found.set(cue, { cue, first, newest: check });
  }
  return [...found.values()];
}

/** The mark that counts for a check answered at `checkSeq`: on, off, or null when there is none. */
function markAt(
  state: SessionState,
  studentId: string,
  cue: number,
  checkSeq: number,
): "on" | "off" | null {
  const moment = Math.min(checkSeq, nextCueSeq(state, studentId, cue));
  let stood: "on" | "off" | null = null;
  const earlier = state.earlierMarks.get(studentId)?.get(cue) ?? [];
  const standing = state.marks.get(studentId)?.get(cue);
  for (const { seq, value } of standing === undefined ? earlier : [...earlier, standing]) {
    if (seq <= moment) stood = value === "none" ? null : value;
    else if (stood === null && value !== "none") return value;
  }
  return stood;
}

/** Number of the event that delivered the student's next cue after this one; infinity when none was. */
function nextCueSeq(state: SessionState, studentId: string, cue: number): number {
  let next = Number.POSITIVE_INFINITY;
  for (const [other, record] of cuesOf(state, studentId)) {
    if (other > cue && record.standing === "delivered") next = Math.min(next, record.seq);
  }
  return next;
}
