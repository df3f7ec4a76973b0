import type { CountedSession, GroupCounts } from "../record/group-counts.ts";

/**
 * The sessions in which a student took part, oldest first: those with a count of the student's own or
 * of an observer's, even if only of missing marks. None for an unknown student.
 */
export function attendedSessions(
  { sessions, counts }: Pick<GroupCounts, "sessions" | "counts">,
  studentId: string,
): CountedSession[] {
  const own = counts.find((columns) => columns.studentId === studentId);
  if (own === undefined) return [];
  return sessions.filter(
    (_, at) => (own.self.on[at] ?? null) !== null || (own.observer.on[at] ?? null) !== null,
  );
}
