import type { Student } from "../../shared/api/roster.ts";
import type { Session, SessionListItem } from "../../shared/api/sessions.ts";
import { deliveredCues, type SessionState } from "../../shared/session/state.ts";
import type { Store } from "../store/store.ts";
import { type Conductor, plannedCues } from "./conductor.ts";

/** The students of a session: the group's, and those archived since who left something in it. */
export function sessionStudents(store: Store, session: Session, state: SessionState): Student[] {
  return store.students
    .listAll(session.groupId)
    .filter((student) => !student.archived || tookPart(state, student.id));
}

/**
 * Lists sessions with what became of them. Sessions that ended are folded once and remembered by their
 * newest event; a page asks for the same list again and again.
 */
export function sessionSummaries(
  store: Store,
  conductor: Conductor,
): { of(session: Session): SessionListItem } {
  const remembered = new Map<string, { readonly seq: number; readonly item: SessionListItem }>();

  function summarize(session: Session): SessionListItem {
    const state = conductor.stateOf(session.id);
    const students = sessionStudents(store, session, state);
    return {
      ...session,
      status: statusOf(state, conductor.liveId() === session.id),
      cuesDelivered: deliveredCues(state).length,
      cuesPlanned: plannedCues(session).length,
      studentsRecorded: students.filter(({ id }) => recorded(state, id)).length,
      studentsPresent: students.filter(({ id }) => !state.setAside.has(id)).length,
    };
  }

  return {
    of(session) {
      const seq = store.log.lastEvent(session.id)?.stamp.seq ?? 0;
      const known = remembered.get(session.id);
      // The roster may have changed, but names and places are not in the summary of an ended session.
      if (known?.seq === seq && known.item.status === "ended") {
        return { ...known.item, groupName: session.groupName };
      }
      const item = summarize(session);
      remembered.set(session.id, { seq, item });
      return item;
    },
  };
}

function statusOf(state: SessionState, isLive: boolean): SessionListItem["status"] {
  if (state.status === "ended") return "ended";
  if (!isLive) return "interrupted";
  return state.status === "paused" ? "paused" : "running";
}

function recorded(state: SessionState, studentId: string): boolean {
  if (state.totals.has(studentId)) return true;
  for (const { value } of state.marks.get(studentId)?.values() ?? []) {
    if (value !== "none") return true;
  }
  return [...state.observed.values()].some((seen) => seen.studentId === studentId);
}

function tookPart(state: SessionState, studentId: string): boolean {
  return recorded(state, studentId) || state.setAside.has(studentId) || state.marks.has(studentId);
}
