import type { GroupCounts, Phase } from "../../shared/api/analysis.ts";
import { momentText } from "../../shared/transfer/moment.ts";
import { sessionColumns } from "../../shared/transfer/session-columns.ts";
import { phasesFor } from "../screens/progress/phase-spans.ts";
import { sessionsOf } from "../screens/progress/session-counts.ts";
import { csvText } from "./csv-field.ts";

/**
 * A group's counted sessions as a CSV file: one line for each student, session and source, in the order
 * of the roster. `phase` is empty before a student's first phase.
 */
export function groupCsv(counts: GroupCounts): string {
  const offsetOf = new Map(counts.sessions.map(({ id, offsetMinutes }) => [id, offsetMinutes]));
  const lines = counts.students.flatMap(({ id, name }) => {
    const phases = phasesFor(counts.phases, id);
    return sessionsOf(counts, id).map((session) => [
      name,
      momentText(session.startedAt, offsetOf.get(session.sessionId) ?? 0),
      phaseText(phases, session.day),
      session.source,
      String(session.on),
      String(session.off),
      String(session.missing),
    ]);
  });
  return csvText([sessionColumns, ...lines]);
}

/**
 * The phase of a day: its kind, then its label or, when it is not the first of its kind, its number.
 *
 * @param phases first day first
 */
export function phaseText(phases: readonly Phase[], day: string): string {
  const at = phases.findLastIndex(({ startsOn }) => startsOn <= day);
  const phase = phases[at];
  if (phase === undefined) return "";
  const number = phases.slice(0, at + 1).filter(({ kind }) => kind === phase.kind).length;
  const rest = phase.label === "" && number > 1 ? String(number) : phase.label;
  return rest === "" ? phase.kind : `${phase.kind} ${rest}`;
}
