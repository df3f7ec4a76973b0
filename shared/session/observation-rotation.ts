import { randomStream } from "../schedule/stream.ts";

/** More students than this cannot be watched in turn by one person; common practice, no source. */
export const mostObserved = 6;

/**
 * Whom an observer looks at when a cue comes: the students in turn, one a cue, in the order of their ids.
 * An id never changes, so a student who moves to another seat, or gets another name, between printing a
 * sheet and typing it in shifts nobody's turn. Where the turn begins is drawn from the session's own
 * stream "observation", so that nobody is always first.
 *
 * After any number of cues no student has been observed more than one time more often than another.
 *
 * @param cue number of the cue in the session, from 1
 * @param studentIds who is observed, in any order: 1 to `mostObserved`, none twice
 * @param seed the session's seed; the same seed and students give the same turns on every machine
 * @throws RangeError for a cue that is not a whole number from 1, or for too few, too many or repeated students.
 */
export function observedAt(cue: number, studentIds: readonly string[], seed: string): string {
  if (!Number.isInteger(cue) || cue < 1) {
    throw new RangeError(`cue must be a whole number from 1; got ${cue}.`);
  }
  const count = studentIds.length;
  if (count < 1 || count > mostObserved || new Set(studentIds).size < count) {
    throw new RangeError(
      `studentIds must be 1 to ${mostObserved} different ones; got ${studentIds.join(", ")}.`,
    );
  }
  const offset = Math.floor(randomStream(seed, "observation")() * count);
  const observed = studentIds.toSorted()[(cue - 1 + offset) % count];
  if (observed === undefined) throw new Error("A turn fell outside the list of students");
  return observed;
}
