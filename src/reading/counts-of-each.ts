import type { GroupCounts } from "../../shared/record/group-counts.ts";
import type { OwnCounts } from "../api/logged-counts.ts";

/** A group's counts as they are read, and the number under which the worker holds what the logs say. */
export type ReadCounts = GroupCounts & { readonly number: number };

/** A group's counts, and separate ones for each of its students who was in another group before. */
export interface EachCounts {
  readonly ofGroup: ReadCounts;
  /** By student; from every group, and about that one student alone. */
  readonly own: ReadonlyMap<string, ReadCounts>;
}

/** Puts the counts of each student who moved beside the group's; undefined until all are known. */
export function eachCounts(
  ofGroup: ReadCounts,
  movedIds: readonly string[],
  known: readonly OwnCounts[],
): EachCounts | undefined {
  const own = new Map<string, ReadCounts>();
  for (const id of movedIds) {
    const found = known.find(({ studentId }) => studentId === id);
    if (found === undefined) return undefined;
    const { logged, phases, number } = found;
    own.set(id, { ...ofGroup, ...logged, phases, number });
  }
  return { ofGroup, own };
}

/** The counts by which one student's own pages are read. */
export const countsOf = ({ ofGroup, own }: EachCounts, studentId: string): ReadCounts =>
  own.get(studentId) ?? ofGroup;

/** The same parted into counts that are each read at once: all who never moved, and each who did. */
export function partedCounts({ ofGroup, own }: EachCounts): ReadCounts[] {
  const only = (counts: ReadCounts, isMeant: (id: string) => boolean) => ({
    ...counts,
    students: counts.students.filter(({ id }) => isMeant(id)),
  });
  return [
    only(ofGroup, (id) => !own.has(id)),
    ...[...own].map(([studentId, counts]) => only(counts, (id) => id === studentId)),
  ];
}
