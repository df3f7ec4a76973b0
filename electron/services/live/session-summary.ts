import type { Session, SessionListItem } from "../../../shared/api/sessions.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import type { SessionKind } from "../../../shared/session/event.ts";
import type { SessionOutline } from "../../../shared/session/outline.ts";
import type { Store } from "../../store/store.ts";
import type { Conductor } from "./conductor.ts";
import { plannedCues } from "./live-session.ts";

/** The students of a session: the group's, and those archived since who left something in it. */
export function sessionStudents(store: Store, session: Session): Student[] {
  const outline = store.outlines.of(session.id);
  const out = outsiders(store, session.groupId, session.kind);
  return studentsOf(store.students.listAll(session.groupId), outline, out);
}

/** Who of a group does not want to be cued, or not to be observed: no session of that kind knows of them. */
export const outsiders = (
  { agreed }: Pick<Store, "agreed">,
  groupId: string,
  kind: SessionKind,
): ReadonlySet<string> =>
  agreed.saidNo(groupId, kind === "baseline" || kind === "probe" ? "observed" : "cued");

/** Students of a group who may be cued in a session of a kind, absent ones too: who comes later has what is left. */
export function cuedIds(
  store: Pick<Store, "agreed" | "students">,
  groupId: string,
  kind: SessionKind,
): string[] {
  const out = outsiders(store, groupId, kind);
  return store.students
    .list(groupId, false)
    .map(({ id }) => id)
    .filter((id) => !out.has(id));
}

/** Whoever takes no part leaves no trace on any screen of the class; what was recorded before stays. */
function studentsOf(
  all: readonly Student[],
  { recorded, setAside, status }: SessionOutline,
  out: ReadonlySet<string>,
): Student[] {
  return all.filter(({ id, archived }) => {
    if (out.has(id)) return status === "ended" && recorded.has(id);
    return !archived || recorded.has(id) || setAside.has(id);
  });
}

/** Sessions with what became of them, for lists. */
export function sessionSummaries(
  store: Store,
  conductor: Conductor,
): { of(sessions: readonly Session[]): SessionListItem[] } {
  // A schedule is drawn from plan and seed, which never change.
  const planned = new Map<string, number>();

  function plannedOf(session: Session, studentId?: string): number {
    const key = `${session.id}/${studentId ?? ""}`;
    const known = planned.get(key);
    if (known !== undefined) return known;
    const count = plannedCues(session, studentId).length;
    planned.set(key, count);
    return count;
  }

  /** Where each has cues of their own, those of all of them together. */
  function cuesPlanned(session: Session, students: readonly Student[]): number {
    if (session.plan.cueing !== "own") return plannedOf(session);
    return students.reduce((sum, { id }) => sum + plannedOf(session, id), 0);
  }

  return {
    of(sessions) {
      const groups = new Map<string, readonly Student[]>();
      return sessions.map((session) => {
        const all = groups.get(session.groupId) ?? store.students.listAll(session.groupId);
        groups.set(session.groupId, all);
        const outline = store.outlines.of(session.id);
        const out = outsiders(store, session.groupId, session.kind);
        const students = studentsOf(all, outline, out);
        const isLive = conductor.liveId() === session.id;
        return {
          ...session,
          status: outline.status === "ended" || isLive ? outline.status : "interrupted",
          cuesDelivered: outline.cuesDelivered,
          leftOutBecause: outline.leftOutBecause,
          cuesPlanned: cuesPlanned(session, students),
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
