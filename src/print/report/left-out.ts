import type { GroupCounts } from "../../../shared/record/group-counts.ts";
import type { Source } from "../../../shared/record/session-count.ts";

/** What a report about one student does not speak of, in numbers. */
export interface LeftOut {
  /** Sessions in which the student was asked and nothing was recorded. */
  readonly withoutMarks: number;
  /** Sessions that the group held without the student. */
  readonly notThere: number;
  /** Cues without a mark, in all sessions. */
  readonly missingMarks: number;
  /** Sessions that only an observer recorded; they are on the graph and in no sentence about self-records. */
  readonly observedOnly: number;
}

/** Counts what is left out of a student's report. A student who is not in the counts took no part in anything. */
export function leftOut(counts: GroupCounts, studentId: string): LeftOut {
  const own = counts.counts.find((columns) => columns.studentId === studentId);
  const at = (source: Source, name: "on" | "off" | "missing", index: number) =>
    own?.[source][name][index] ?? null;
  const found = { withoutMarks: 0, notThere: 0, missingMarks: 0, observedOnly: 0 };
  counts.sessions.forEach((_, index) => {
    const marks = (source: Source) => {
      const on = at(source, "on", index);
      return on === null ? null : on + (at(source, "off", index) ?? 0);
    };
    const self = marks("self");
    const seen = marks("observer");
    found.missingMarks += at("self", "missing", index) ?? 0;
    if ((self ?? 0) > 0) return;
    if ((seen ?? 0) > 0) found.observedOnly += 1;
    else if (self === null && seen === null) found.notThere += 1;
    else found.withoutMarks += 1;
  });
  return found;
}
