import type { ImportRow } from "../../../shared/api/transfer.ts";
import type { SessionEventBody, SessionKind } from "../../../shared/session/event.ts";

/** What a row of earlier records says of one student in one session. */
export interface EarlierRecord
  extends Pick<ImportRow, "source" | "on" | "off" | "missing" | "work"> {
  readonly studentId: string;
}

/**
 * The kind of session that earlier records tell of: one in which students recorded themselves, or one in
 * which they were only observed.
 */
export function earlierKind(records: readonly EarlierRecord[]): SessionKind {
  return records.some(({ source }) => source === "self") ? "seatwork" : "baseline";
}

/**
 * The log of a session of which only counts are known, such that counting it gives those counts back.
 *
 * As many cues as the longest record has are written as delivered. A student's own record is a total;
 * whoever had fewer cues is set aside at the first ones, and whoever has no record is set aside
 * throughout, so that nothing is missing for them. An observer's record is written cue by cue, because
 * the log has no total for it: first all on, then all off, then all unseen. That order is made up, so
 * cues of an imported session must never be compared one by one.
 *
 * @param records at most one of each source for a student
 * @param roster ids of all students of the group
 */
export function earlierSession(
  records: readonly EarlierRecord[],
  roster: readonly string[],
): SessionEventBody[] {
  const cues = Math.max(...records.map(sizeOf));
  const by = earlierKind(records) === "seatwork" ? "sound" : "sight";
  const from = firstCues(records, roster, cues);
  const events: SessionEventBody[] = [{ kind: "begun" }];
  for (const [studentId, first] of from) {
    if (first > 1) events.push({ kind: "set-aside", studentId });
  }
  for (let cue = 1; cue <= cues; cue++) {
    for (const [studentId, first] of from) {
      if (first === cue && first > 1) events.push({ kind: "back", studentId });
    }
    events.push({ kind: "delivered", cue, by, latenessMs: null, problem: null });
  }
  for (const record of records) events.push(...said(record));
  events.push(...workOf(records));
  events.push({ kind: "ended", reason: "finished" });
  return events;
}

const sizeOf = ({ on, off, missing }: EarlierRecord): number => on + off + missing;

/** For each student the first cue at which a record of their own is expected; infinity for none. */
function firstCues(
  records: readonly EarlierRecord[],
  roster: readonly string[],
  cues: number,
): Map<string, number> {
  const asked = earlierKind(records) === "seatwork" ? "self" : "observer";
  const from = new Map<string, number>(roster.map((id) => [id, Number.POSITIVE_INFINITY]));
  for (const record of records) {
    if (record.source !== asked) continue;
    from.set(record.studentId, asked === "self" ? cues - sizeOf(record) + 1 : 1);
  }
  return from;
}

/** A student's work is one, whoever recorded: that of the first record that has it. */
function workOf(records: readonly EarlierRecord[]): SessionEventBody[] {
  const found = new Map<string, SessionEventBody>();
  for (const { studentId, work } of records) {
    if (work !== null && !found.has(studentId))
      found.set(studentId, { kind: "work", studentId, ...work });
  }
  return [...found.values()];
}

function said({ studentId, source, on, off, missing }: EarlierRecord): SessionEventBody[] {
  if (source === "self") return [{ kind: "total", studentId, on, off, way: "import" }];
  const values = [
    ...Array.from({ length: on }, () => "on" as const),
    ...Array.from({ length: off }, () => "off" as const),
    ...Array.from({ length: missing }, () => "unseen" as const),
  ];
  return values.map((value, index) => ({
    kind: "observed",
    studentId,
    cue: index + 1,
    value,
    observer: 1,
  }));
}
