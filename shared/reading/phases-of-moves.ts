import type { Phase } from "../phase/phase.ts";

/** A stretch in one group, from a school-local day on. */
export interface PhasesOfStay {
  readonly phases: readonly Phase[];
  /** First day in this group; null for the first group. */
  readonly fromDay: string | null;
}

/**
 * The phases by which a student who has moved is read: of each group those that held while the student was
 * in it. The one that held on the day of the move begins, for this student, on that day. The student's own
 * phases stay as they are.
 *
 * @param stays the first group first
 */
export function phasesOfMoves(stays: readonly PhasesOfStay[], studentId: string): Phase[] {
  return stays.flatMap(({ phases, fromDay }, at) => {
    const untilDay = stays[at + 1]?.fromDay ?? null;
    const own = phases.filter((phase) => phase.studentId === studentId);
    const ofGroup = phases
      .filter((phase) => phase.studentId === null)
      .filter(({ startsOn }) => untilDay === null || startsOn < untilDay)
      .toSorted((a, b) => (a.startsOn < b.startsOn ? -1 : 1));
    if (fromDay === null) return [...ofGroup, ...own];
    const holding = ofGroup.findLast(({ startsOn }) => startsOn <= fromDay);
    const later = ofGroup.filter(({ startsOn }) => startsOn > fromDay);
    const first = holding === undefined ? [] : [{ ...holding, startsOn: fromDay }];
    return [...first, ...later, ...own];
  });
}
