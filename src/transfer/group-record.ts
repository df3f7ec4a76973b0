import type { CountColumns, GroupCounts } from "../../shared/api/analysis.ts";
import type { GroupRecord } from "../../shared/transfer/group-record.ts";
import { momentText } from "../../shared/transfer/moment.ts";

/**
 * A group's counts as the JSON file of shared/transfer/group-record.ts.
 *
 * @param exportedMs wall clock, ms since 1970 UTC
 */
export function groupRecord(counts: GroupCounts, exportedMs: number): GroupRecord {
  const { group, students, sessions } = counts;
  return {
    form: "pebblechime-group-record",
    version: 1,
    exportedAt: new Date(exportedMs).toISOString(),
    group: { name: group.name, target: group.target, isSample: group.isSample },
    students: students.map(({ id, name, target, archived }) => ({ id, name, target, archived })),
    sessions: sessions.map(({ startedMs, offsetMinutes, ...session }) => ({
      id: session.id,
      kind: session.kind,
      startedAt: momentText(startedMs, offsetMinutes),
      day: session.day,
      meanSeconds: session.meanSeconds,
      cuesDelivered: session.cuesDelivered,
      note: session.note,
    })),
    counts: counts.counts.flatMap(({ studentId, self, observer }) => [
      ...countsFrom(counts, studentId, self, "self"),
      ...countsFrom(counts, studentId, observer, "observer"),
    ]),
    spotChecks: counts.checks.map(({ day: _day, ...check }) => check),
    observerPairs: counts.observerPairs,
    work: counts.work,
    phases: counts.phases.map(({ id: _id, groupId: _groupId, ...phase }) => phase),
  };
}

function countsFrom(
  { sessions }: GroupCounts,
  studentId: string,
  columns: CountColumns,
  source: "self" | "observer",
): GroupRecord["counts"] {
  return sessions.flatMap(({ id: sessionId }, at) => {
    const onTask = columns.on[at] ?? null;
    const offTask = columns.off[at] ?? null;
    const noMark = columns.missing[at] ?? null;
    if (onTask === null || offTask === null || noMark === null) return [];
    return { studentId, sessionId, source, onTask, offTask, noMark };
  });
}
