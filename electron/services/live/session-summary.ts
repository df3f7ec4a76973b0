import type { Session, SessionListItem } from "../../../shared/api/sessions.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import type { SessionOutline } from "../../../shared/session/outline.ts";
import type { Store } from "../../store/store.ts";
import type { Conductor } from "./conductor.ts";
import { plannedCues } from "./live-session.ts";

/** The students of a session: the group's, and those archived since who left something in it. */
export function sessionStudents(store: Store, session: Session): Student[] {
  const outline = store.outlines.of(session.id);
  return studentsOf(store.students.listAll(session.groupId), outline);
}

function studentsOf(all: readonly Student[], { recorded, setAside }: SessionOutline): Student[] {
  return all.filter(({ id, archived }) => !archived || recorded.has(id) || setAside.has(id));
}

/** Sessions with what became of them, for lists. */
export function sessionSummaries(
  store: Store,
  conductor: Conductor,
): { of(sessions: readonly Session[]): SessionListItem[] } {
  // A schedule is drawn from plan and seed, which never change.
  const planned = new Map<string, number>();

  function cuesPlanned(session: Session): number {
    const known = planned.get(session.id);
    if (known !== undefined) return known;
    const count = plannedCues(session).length;
    planned.set(session.id, count);
    return count;
  }

  return {
    of(sessions) {
      const groups = new Map<string, readonly Student[]>();
      return sessions.map((session) => {
        const all = groups.get(session.groupId) ?? store.students.listAll(session.groupId);
        groups.set(session.groupId, all);
        const outline = store.outlines.of(session.id);
        const students = studentsOf(all, outline);
        const isLive = conductor.liveId() === session.id;
        return {
          ...session,
          status: outline.status === "ended" || isLive ? outline.status : "interrupted",
          cuesDelivered: outline.cuesDelivered,
          leftOutBecause: outline.leftOutBecause,
          cuesPlanned: cuesPlanned(session),
          studentsRecorded: students.filter(({ id }) => outline.recorded.has(id)).length,
          // Who recorded before being set aside was there too.
          studentsPresent: students.filter(
            ({ id }) => !outline.setAside.has(id) || outline.recorded.has(id),
          ).length,
        };
      });
    },
  };
}
