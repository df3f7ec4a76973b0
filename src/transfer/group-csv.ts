import { phasesFor } from "../../shared/reading/phase-spans.ts";
import { sessionsOf } from "../../shared/reading/session-counts.ts";
import type { GroupCounts, WorkDone } from "../../shared/record/group-counts.ts";
import { csvText } from "../../shared/transfer/csv-field.ts";
import { momentText } from "../../shared/transfer/moment.ts";
import { phaseText } from "../../shared/transfer/phase-text.ts";
import { moreSessionColumns, sessionColumns } from "../../shared/transfer/session-columns.ts";

/**
 * A group's counted sessions as a CSV file: one line for each student, session and source, in the order
 * of the roster. `phase` is empty before a student's first phase. Work done stands once, on the first of
 * a session's lines of a student; its fields are empty where nothing was noted.
 */
export function groupCsv(counts: GroupCounts): string {
  const offsetOf = new Map(counts.sessions.map(({ id, offsetMinutes }) => [id, offsetMinutes]));
  const lines = counts.students.flatMap(({ id, name }) => {
    const phases = phasesFor(counts.phases, id);
    const work = new Map(
      counts.work
        .filter(({ studentId }) => studentId === id)
        .map((done) => [done.sessionId, done] as const),
    );
    return sessionsOf(counts, id).map((session) => {
      const done = work.get(session.sessionId);
      work.delete(session.sessionId);
      return [
        name,
        momentText(session.startedAt, offsetOf.get(session.sessionId) ?? 0),
        phaseText(phases, session.day),
        session.source,
        String(session.on),
        String(session.off),
        String(session.missing),
        session.subject ?? "",
        ...workFields(done),
      ];
    });
  });
  return csvText([[...sessionColumns, ...moreSessionColumns], ...lines]);
}

function workFields(done: WorkDone | undefined): string[] {
  if (done === undefined) return ["", "", ""];
  const { assigned, completed, correct } = done;
  return [String(assigned), String(completed), correct === null ? "" : String(correct)];
}
