import type { ImportRow } from "../../shared/api/transfer.ts";
import { nameKey } from "../../shared/roster/name-key.ts";
import { withoutGuard } from "../../shared/transfer/csv-field.ts";
import { earliestMs, longestName, mostMarks } from "../../shared/transfer/import-limits.ts";
import { type Moment, momentText, parseMoment } from "../../shared/transfer/moment.ts";
import { sourceIn } from "../../shared/transfer/record-source.ts";
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
 * and the source is as chosen.
 */
export function readRows(table: Table, options: ReadOptions): ReadLines<ImportRow> {
  return readEach(table, "repeats", (row) => readRow(row, options));
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
  if (student === "") bad("student");
  if (student.length > longestName) problems.push({ line, kind: "name-long", found: student });
  if (at === undefined) bad("startedAt");
  if (who === undefined) bad("source");
  if (on === undefined) bad("on");
  if (off === undefined) bad("off");
  if (missing === undefined) bad("missing");
  const isRead =
    at !== undefined &&
    who !== undefined &&
    on !== undefined &&
    off !== undefined &&
    missing !== undefined;
  if (!isRead) return { problems };

  const marks = on + off + missing;
  if (marks === 0) problems.push({ line, kind: "no-marks" });
  if (marks > mostMarks) problems.push({ line, kind: "many-marks", found: marks });
  if (at.ms < earliestMs || at.ms > nowMs)
    problems.push({ line, kind: "time-unlikely", found: text("startedAt") });
  if (problems.length > 0) return { problems };
  const startedAt = momentText(at.ms, at.offsetMinutes);
  const row: ImportRow = { student, startedAt, source: who, on, off, missing };
  return { row, key: keyOf(row, at) };
}

/** A whole number without sign. Undefined for anything else, also for an empty field. */
function countOf(text: string): number | undefined {
  return /^\d{1,6}$/.test(text) ? Number(text) : undefined;
}
