import type { Student } from "../../../shared/roster/roster.ts";
import { mostObserved, observedAt } from "../../../shared/session/observation-rotation.ts";
import { observedKey } from "../../../shared/session/state.ts";
import type { LiveSession } from "../../live/use-live-session.ts";

/**
 * The students who are observed in a session, at most `mostObserved`, in the order of the room: those not
 * set aside. Who they are hangs on ids alone, which never change: ids are numbered by time (UUIDv7), so
 * whoever was added after the session began comes after it and was not watched, unless a look says so.
 */
export function observedStudents({ session, students, state }: LiveSession): Student[] {
  const looked = new Set([...state.observed.values()].map(({ studentId }) => studentId));
  const watched = students
    .filter(({ id }) => !state.setAside.has(id) && (id < session.id || looked.has(id)))
    .map(({ id }) => id)
    .toSorted()
    .slice(0, mostObserved);
  return students.filter(({ id }) => watched.includes(id));
}

/** Whose turn it is at a cue: whom the first observer recorded there, else whom the rotation names. */
export function turnAt(live: LiveSession, cue: number): Student | null {
  const observed = observedStudents(live);
  const recorded = observed.find(({ id }) => live.state.observed.has(observedKey(id, cue, 1)));
  if (recorded !== undefined) return recorded;
  if (observed.length === 0) return null;
  const ids = observed.map(({ id }) => id);
  const id = observedAt(cue, ids, live.session.seed);
  return observed.find((student) => student.id === id) ?? null;
}

/** Looks at which an observer's sheet has another student than the one who was watched. */
export function otherTurns(live: LiveSession, observer: 1 | 2): { cue: number; name: string }[] {
  const cues = [...live.state.observed.values()]
    .filter((each) => each.observer === observer && each.value !== "unseen")
    .flatMap(({ cue, studentId }) => {
      const turn = turnAt(live, cue);
      return turn === null || turn.id === studentId ? [] : [{ cue, name: turn.name }];
    });
  return cues.toSorted((one, other) => one.cue - other.cue);
}
