import type { Student } from "../../../shared/api/roster.ts";
import { mostObserved, observedAt } from "../../../shared/session/observation-rotation.ts";
import { observedKey } from "../../../shared/session/state.ts";
import type { LiveSession } from "../session/use-live-session.ts";

/**
 * The students who are observed in a session, at most `mostObserved`: those not set aside, in the order
 * of the room, as the printed sheet has them.
 */
export function observedStudents({ students, state }: LiveSession): Student[] {
  return students.filter(({ id }) => !state.setAside.has(id)).slice(0, mostObserved);
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
