import { type AgreedPage, linesAsked, unanswered } from "../../../shared/home/agreed.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { useAsk, useStudents } from "../../api/queries.ts";
import { usePointsShown } from "../points/use-points.ts";

/**
 * What was agreed about each student of a group; undefined until known. An answer that has become old is no
 * answer: a name must not be seen for the moment until the new one is there.
 */
export function useAgreed(groupId: string): readonly AgreedPage[] | undefined {
  const agreed = useAsk("home", ["agreed", groupId], (api) => api.agreed.ofGroup({ groupId }));
  return agreed.isStale ? undefined : agreed.data;
}

const saidNo = (page: AgreedPage, line: "cued" | "observed" | "points"): boolean =>
  page.said.findLast((each) => each.line === line)?.answer === "no";

/** A group's students without those who do not want to be cued, observed or paid; undefined until known. */
export function useWilling(
  groupId: string,
  line: "cued" | "observed" | "points",
): {
  readonly students: readonly Student[] | undefined;
  readonly out: number;
  readonly error: unknown;
} {
  const students = useStudents(groupId);
  const pages = useAgreed(groupId);
  if (students.data === undefined || pages === undefined) {
    return { students: undefined, out: 0, error: students.error };
  }
  const out = new Set(pages.filter((page) => saidNo(page, line)).map((page) => page.studentId));
  return {
    students: students.data.filter(({ id }) => !out.has(id)),
    out: out.size,
    error: students.error,
  };
}

/** For how many students of a group a line is still to be asked; names are not for the room. */
export function useUnasked(groupId: string): number {
  const asked = linesAsked(usePointsShown(groupId));
  return (useAgreed(groupId) ?? []).filter(({ said }) => unanswered(said, asked).length > 0).length;
}
