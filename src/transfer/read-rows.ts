import type { ImportRow } from "../../shared/api/transfer.ts";
import { mostCues } from "../../shared/plan/most-cues.ts";
import { longestSubject } from "../../shared/plan/plan.ts";
import { nameKey } from "../../shared/roster/name-key.ts";
import { withoutGuard } from "../../shared/transfer/csv-field.ts";
import { differing } from "../../shared/transfer/differing.ts";
import { earliestMs, longestName } from "../../shared/transfer/import-limits.ts";
import { type Moment, momentText, parseMoment } from "../../shared/transfer/moment.ts";
import { parsePhase } from "../../shared/transfer/phase-text.ts";
import { sourceIn } from "../../shared/transfer/record-source.ts";
import { readWork } from "../../shared/transfer/work-fields.ts";
import type { ImportField, Mapping } from "./mapping.ts";
import { type ReadLine, type ReadLines, type RowProblem, readEach } from "./read-each.ts";
import type { Table, TableRow } from "./read-table.ts";

export interface ReadOptions {
  readonly mapping: Mapping;
  /** Who recorded, when no column says so. */
  readonly source: ImportRow["source"];
  /** Wall clock, ms since 1970 UTC: no session can have begun later. */
  readonly nowMs: number;
}

/**
 * Understands a table as past sessions under a mapping. Fields without a column are none: no mark is 0,
 * there is no phase, subject or work, and the source is as chosen.
 */
export function readRows(table: Table, options: ReadOptions): ReadLines<ImportRow> {
  const { rows, problems } = readEach(table, "repeats", (row) => readRow(row, options));
  const mixed = mixedIn(rows);
  if (mixed.length === 0) return { rows, problems };
  const bad = new Set(mixed.map(({ line }) => line));
  return {
    rows: rows.filter(({ line }) => !bad.has(line)),
    problems: [...problems, ...mixed].toSorted((one, other) => one.line - other.line),
  };
}

/** A session has one subject, and a student one phase a day. */
function mixedIn(rows: ReadLines<ImportRow>["rows"]): RowProblem[] {
  type Line = (typeof rows)[number];
  const momentOf = ({ row }: Line) => parseMoment(row.startedAt);
  const subjects = differing<Line>(
    (each) => String(momentOf(each)?.ms),
    ({ row }) => row.subject,
  );
  const phases = differing<Line>(
    (each) => `${momentOf(each)?.day} ${nameKey(each.row.student)}`,
    ({ row }) => row.phase.toLowerCase(),
  );
  return rows.flatMap((each): RowProblem[] => {
    const { line, row } = each;
    return [
      ...(subjects(each) ? [{ line, kind: "subject-differs" as const, found: row.subject }] : []),
      ...(phases(each) ? [{ line, kind: "phase-differs" as const, found: row.phase }] : []),
    ];
  });
}

const keyOf = ({ student, source }: ImportRow, at: Moment): string =>
  JSON.stringify([nameKey(student), at.ms, source]);

function readRow(
  { line, fields }: TableRow,
  { mapping, source, nowMs }: ReadOptions,
): ReadLine<ImportRow> {
  const text = (field: ImportField): string => {
    const at = mapping[field];
    return at === null ? "" : withoutGuard(fields[at] ?? "").trim();
  };
  const problems: RowProblem[] = [];
  const bad = (field: ImportField) =>
    problems.push({ line, kind: "field", field, found: text(field) });

  const student = text("student");
  const at = parseMoment(text("startedAt"));
  const who = mapping.source === null ? source : sourceIn(text("source"));
  const on = countOf(text("on"));
  const off = countOf(text("off"));
  const missing = mapping.missing === null ? 0 : countOf(text("missing"));
  const phase = text("phase");
  const subject = text("subject");
  if (student === "") bad("student");
  if (student.length > longestName) problems.push({ line, kind: "name-long", found: student });
  if (at === undefined) bad("startedAt");
  if (who === undefined) bad("source");
  if (on === undefined) bad("on");
  if (off === undefined) bad("off");
  if (missing === undefined) bad("missing");
  if (phase !== "" && parsePhase(phase) === undefined) bad("phase");
  if (subject.length > longestSubject) problems.push({ line, kind: "subject-long" });
  const work = readWork({
    assigned: text("assigned"),
    completed: text("completed"),
    correct: text("correct"),
  });
  if (Array.isArray(work)) {
    for (const problem of work) {
      if (problem.kind === "items") bad(problem.column);
      else problems.push({ line, ...problem });
    }
  }
  const isRead =
    at !== undefined &&
    who !== undefined &&
    on !== undefined &&
    off !== undefined &&
    missing !== undefined &&
    !Array.isArray(work);
  if (!isRead) return { problems };

  const marks = on + off + missing;
  if (marks === 0) problems.push({ line, kind: "no-marks" });
  if (marks > mostCues) problems.push({ line, kind: "many-marks", found: marks });
  if (at.ms < earliestMs || at.ms > nowMs)
    problems.push({ line, kind: "time-unlikely", found: text("startedAt") });
  if (problems.length > 0) return { problems };
  const startedAt = momentText(at.ms, at.offsetMinutes);
  const row = { student, startedAt, source: who, on, off, missing, phase, subject, work };
  return { row, key: keyOf(row, at) };
}

/** A whole number without sign. Undefined for anything else, also for an empty field. */
function countOf(text: string): number | undefined {
  return /^\d{1,6}$/.test(text) ? Number(text) : undefined;
}
