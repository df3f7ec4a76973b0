import { splitIntoPhases } from "../analysis/phases/phase-series.ts";
import { addOverStudents } from "../analysis/summary.ts";
import type { GroupCounts } from "../record/group-counts.ts";
import { type AdviceMaterial, adviceMaterial } from "./advice-material.ts";
import { phasesFor } from "./phase-spans.ts";
import { sessionsOf } from "./session-counts.ts";

/** What the advice for a group is drawn from, and no more; for Today. */
export interface NextReading {
  readonly advice: AdviceMaterial;
  /** Start of the newest session with a record, ms since 1970 UTC; null without any. */
  readonly newestMs: number | null;
}

/** Reads the students in use, as the group's own page does. */
export function readNext(counts: GroupCounts): NextReading {
  const students = counts.students
    .filter(({ archived }) => !archived)
    .map(({ id }) => ({ studentId: id, sessions: sessionsOf(counts, id) }));
  const together = addOverStudents(students);
  const phases = splitIntoPhases(phasesFor(counts.phases, null), together);
  const newestMs = together.reduce((newest, { startedAt }) => Math.max(newest, startedAt), -1);
  return {
    advice: adviceMaterial(together, counts.checks, phases, counts.work),
    newestMs: newestMs < 0 ? null : newestMs,
  };
}
