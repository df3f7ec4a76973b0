import type { Phase } from "../../../shared/phase/phase.ts";
import {
  type PhasedDay,
  type PhaseStart,
  phaseStarts,
} from "../../../shared/transfer/phase-starts.ts";
import { phaseText, writePhase } from "../../../shared/transfer/phase-text.ts";
import type { Store } from "../../store/store.ts";

/**
 * Adds the phases that imported rows tell of, those of the group and those of single students. What the
 * group or the student has already stays as it is; a phase that is in force on that day is not added again.
 *
 * @returns how many were added
 */
export function importPhases(
  store: Store,
  groupId: string,
  importId: string,
  days: readonly PhasedDay[],
  nowMs: number,
): number {
  const there = store.phases.list(groupId);
  const { group, own } = phaseStarts(days);
  const wanted = [
    ...absentIn(there, null, group),
    ...[...own].flatMap(([studentId, starts]) => absentIn(there, studentId, starts)),
  ];
  for (const facts of wanted) {
    const phase = store.phases.create({ groupId, ...facts, draw: null, probes: null }, nowMs);
    store.imports.rememberPhase(importId, phase.id);
  }
  return wanted.length;
}

function absentIn(
  there: readonly Phase[],
  studentId: string | null,
  starts: readonly PhaseStart[],
): (PhaseStart & Pick<Phase, "studentId">)[] {
  const held = there.filter((phase) => phase.studentId === studentId);
  return starts
    .filter((start) => phaseText(held, start.startsOn) !== writePhase(start))
    .map((start) => ({ ...start, studentId }));
}
