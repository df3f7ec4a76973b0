import type { Phase } from "../phase/phase.ts";

/**
 * The phases by which a student is read, first day first. Phases of the student's own replace the
 * group's altogether: who starts the program later than the class has another baseline too.
 *
 * @param studentId null for the group as a whole
 */
export function phasesFor(phases: readonly Phase[], studentId: string | null): Phase[] {
  const own = phases.filter((phase) => phase.studentId === studentId);
  const used = own.length > 0 ? own : phases.filter((phase) => phase.studentId === null);
  return used.toSorted((a, b) => (a.startsOn < b.startsOn ? -1 : a.startsOn > b.startsOn ? 1 : 0));
}
