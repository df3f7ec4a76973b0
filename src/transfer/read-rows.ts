import type { ImportRow } from "../../shared/api/transfer.ts";
import { type Moment, momentText, parseMoment } from "../../shared/transfer/moment.ts";
import { withoutGuard } from "./csv-field.ts";
import type { ImportField, Mapping } from "./mapping.ts";
import type { Table, TableRow } from "./read-table.ts";

/** A session has at most so many cues. */
export const mostMarks = 2_000;
/** No import is larger. */
export const mostRows = 20_000;
const longestName = 60;
/** Earlier years are slips of the pen. */
const earliestMs = Date.UTC(2000, 0, 1);

/** What is wrong with one line of the file; `found` is what stands there. */
export type RowProblem =
  | {
      readonly line: number;
      readonly kind: "field";
      readonly field: ImportField;
      readonly found: string;
    }
  | { readonly line: number; readonly kind: "name-long"; readonly found: string }
  | { readonly line: number; readonly kind: "no-marks" }
  | { readonly line: number; readonly kind: "many-marks"; readonly found: number }
  | { readonly line: number; readonly kind: "time-unlikely"; readonly found: string }
  | { readonly line: number; readonly kind: "repeats"; readonly earlier: number }
  | { readonly line: number; readonly kind: "quote-open" }
  | {
      readonly line: number;
      readonly kind: "columns-differ";
      readonly have: number;
      readonly most: number;
    };

/** What can be brought in, each row with its line, and all that is wrong with the others. */
export interface ReadRows {
  readonly rows: readonly { readonly line: number; readonly row: ImportRow }[];
  /** By line. */
  readonly problems: readonly RowProblem[];
}

export interface ReadOptions {
  readonly mapping: Mapping;
  /** Who recorded, when no column says so. */
  readonly source: ImportRow["source"];
  /** Wall clock, ms since 1970 UTC: no session can have begun later. */
  readonly nowMs: number;
}

/**
 * Understands a table under a mapping. A line with anything wrong gives no row; every problem of every
 * line is told. Fields without a column are none: no mark is 0, and the source is as chosen.
 */
export function readRows(table: Table, options: ReadOptions): ReadRows {
  const rows: { line: number; row: ImportRow }[] = [];
  const problems: RowProblem[] = table.broken.map(({ line, problem, have, most }) =>
    problem === "quote-open" ? { line, kind: problem } : { line, kind: problem, have, most },
  );
  const lineOf = new Map<string, number>();
  for (const tableRow of table.rows) {
    const { line } = tableRow;
    const read = readRow(tableRow, options);
    if (!("row" in read)) {
      problems.push(...read.problems);
      continue;
    }
    const key = keyOf(read.row, read.at);
    const earlier = lineOf.get(key);
    if (earlier !== undefined) {
      problems.push({ line, kind: "repeats", earlier });
      continue;
    }
    lineOf.set(key, line);
    rows.push({ line, row: read.row });
  }
  return { rows, problems: problems.toSorted((one, other) => one.line - other.line) };
}

/** Under which key two names are one student, as the desktop side finds them. */
export const foldedName = (name: string): string => name.normalize("NFKC").toLocaleLowerCase("en");

const keyOf = ({ student, source }: ImportRow, at: Moment): string =>
  JSON.stringify([foldedName(student), at.ms, source]);

type Read = { row: ImportRow; at: Moment } | { problems: RowProblem[] };

function readRow({ line, fields }: TableRow, { mapping, source, nowMs }: ReadOptions): Read {
  const text = (field: ImportField): string => {
    const at = mapping[field];
    return at === null ? "" : withoutGuard(fields[at] ?? "").trim();
  };
  const problems: RowProblem[] = [];
  const bad = (field: ImportField) =>
    problems.push({ line, kind: "field", field, found: text(field) });

  const student = text("student");
  const at = parseMoment(text("startedAt"));
  const who = mapping.source === null ? source : sourceOf(text("source"));
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
  return { row: { student, startedAt, source: who, on, off, missing }, at };
}

function sourceOf(text: string): ImportRow["source"] | undefined {
  const word = text.toLowerCase();
  return word === "self" || word === "observer" ? word : undefined;
}

/** A whole number without sign. Undefined for anything else, also for an empty field. */
function countOf(text: string): number | undefined {
  return /^\d{1,6}$/.test(text) ? Number(text) : undefined;
}
