import { replaceEqualDeep, useQuery } from "@tanstack/react-query";
import type { Topic } from "../../shared/api/app.ts";
import type { GroupFacts, LoggedCounts } from "../../shared/record/group-counts.ts";
import { useConnection } from "./context.tsx";

/** What a group's logs say, under a number that is another one whenever anything of it is. */
export interface NumberedCounts {
  readonly number: number;
  readonly logged: LoggedCounts;
}

let lastNumber = 0;

/** A group's counts, asked for once however many screens want them, and again when records change. */
export function useLoggedCounts(groupId: string) {
  const { api } = useConnection();
  return useQuery({
    queryKey: ["records", "counts", groupId] satisfies [Topic, ...string[]],
    queryFn: async (): Promise<NumberedCounts> => {
      const logged = await api.analysis.counts({ groupId });
      lastNumber += 1;
      return { number: lastNumber, logged };
    },
    structuralSharing: (before, now) => sameNumber(before, now),
  });
}

/** What is known of one student who was in several groups. */
export type OwnCounts = NumberedCounts &
  Pick<GroupFacts, "phases"> & { readonly studentId: string };

/**
 * What the logs of every group say of each student who was in several, and the phases that held for the
 * student; asked again when records or the phases of the present group change. All are asked for as one, so
 * that no page of a print comes later than the others.
 *
 * @param phasesMs when the phases of the present group were last heard of
 */
export function useLoggedOfStudents(studentIds: readonly string[], phasesMs: number) {
  const { api } = useConnection();
  return useQuery({
    queryKey: ["records", "students", studentIds, phasesMs],
    queryFn: () =>
      Promise.all(
        studentIds.map(async (studentId): Promise<OwnCounts> => {
          const own = await api.analysis.studentCounts({ studentId });
          lastNumber += 1;
          return { ...own, studentId, number: lastNumber };
        }),
      ),
    structuralSharing: false,
    enabled: studentIds.length > 0,
    placeholderData: (before) => before,
  });
}

/** Counts that are what they were keep their number: nobody reads them anew. */
export function sameNumber(before: unknown, now: unknown): unknown {
  if (!isNumbered(before) || !isNumbered(now)) return now;
  const logged = replaceEqualDeep(before.logged, now.logged);
  return logged === before.logged ? before : { number: now.number, logged };
}

const isNumbered = (data: unknown): data is NumberedCounts =>
  typeof data === "object" && data !== null && "number" in data && "logged" in data;
