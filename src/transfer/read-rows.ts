import type { ImportRow } from "../../shared/api/transfer.ts";
import { mostCues } from "../../shared/plan/most-cues.ts";
import { nameKey } from "../../shared/roster/name-key.ts";
import { withoutGuard } from "../../shared/transfer/csv-field.ts";
import { differing } from "../../shared/transfer/differing.ts";
import { longestName } from "../../shared/transfer/import-limits.ts";
import { type Moment, momentText, parseMoment } from "../../shared/transfer/moment.ts";
import { readSessionRow } from "../../shared/transfer/session-row.ts";
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
  const read = readSessionRow(
    // Where no column says so nothing is missing.
    (field) => (field === "missing" && mapping.missing === null ? "0" : text(field)),
    {
      source: mapping.source === null ? source : null,
      // What is too much is judged by all marks together.
      mostMarks: Number.MAX_SAFE_INTEGER,
      beforeMs: nowMs + 1,
    },
  );
  const student = text("student");
  const long: RowProblem[] =
    student.length > longestName ? [{ line, kind: "name-long", found: student }] : [];
  if (Array.isArray(read)) {
    return { problems: [...long, ...read.map((problem) => ({ line, ...problem }))] };
  }
  const { moment, phaseText: phase, on, off, missing, subject, work } = read;
  const marks = on + off + missing;
  const problems = [...long];
  if (marks === 0) problems.push({ line, kind: "no-marks" });
  if (marks > mostCues) problems.push({ line, kind: "many-marks", found: marks });
  if (problems.length > 0) return { problems };
  const startedAt = momentText(moment.ms, moment.offsetMinutes);
  const row = { student, startedAt, source: read.source, on, off, missing, phase, subject, work };
  return { row, key: keyOf(row, moment) };
}
