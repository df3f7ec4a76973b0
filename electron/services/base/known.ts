import type { Session } from "../../../shared/api/sessions.ts";
import type { Group, Student } from "../../../shared/roster/roster.ts";
import type { Store } from "../../store/store.ts";
import { Missing, Refusal } from "./refusal.ts";

/** @throws Missing */
export function knownGroup({ groups }: Pick<Store, "groups">, groupId: string): Group {
  const group = groups.get(groupId);
  if (group === null) throw new Missing("group");
  return group;
}

/** @throws Missing */
export function knownStudent({ students }: Pick<Store, "students">, studentId: string): Student {
  const student = students.get(studentId);
  if (student === null) throw new Missing("student");
  return student;
}

/**
 * A student of a group, as it is now: a student of another one cannot be meant.
 *
 * @throws Missing, Refusal
 */
export function studentOf(
  store: Pick<Store, "students">,
  groupId: string,
  studentId: string,
): Student {
  const student = knownStudent(store, studentId);
  if (student.groupId === groupId) return student;
  throw new Refusal("student-not-in-group", "This student is not in this group.", {
    student: student.name,
  });
}

/**
 * A student to whom something of a session belongs: of its group, or who was in it then and has left since.
 *
 * @throws Missing, Refusal
 */
export function studentOfSession(
  store: Pick<Store, "students">,
  { groupId, startedMs }: Pick<Session, "groupId" | "startedMs">,
  studentId: string,
): Student {
  const student = store.students.get(studentId);
  const wasThere = store.students
    .stays(studentId)
    .some((stay) => stay.groupId === groupId && startedMs < stay.untilMs);
  return student !== null && wasThere ? student : studentOf(store, groupId, studentId);
}
