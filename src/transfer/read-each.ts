import type { ImportField } from "./mapping.ts";
import type { Table, TableRow } from "./read-table.ts";

/** What is wrong with one line of the file; `found` is what stands there. */
export type RowProblem = { readonly line: number } & (
  | { readonly kind: "field"; readonly field: ImportField; readonly found: string }
  | { readonly kind: "name-long" | "name-taken"; readonly found: string }
  | { readonly kind: "target-long" | "subject-long" }
  | { readonly kind: "phase-differs" | "subject-differs"; readonly found: string }
  | { readonly kind: "no-marks" }
  | { readonly kind: "correct-over"; readonly correct: number; readonly completed: number }
  | { readonly kind: "many-marks"; readonly found: number }
  | { readonly kind: "time-unlikely"; readonly found: string }
  | { readonly kind: "repeats" | "name-repeats"; readonly earlier: number }
  | { readonly kind: "quote-open" }
  | { readonly kind: "columns-differ"; readonly have: number; readonly most: number }
);

/** What can be brought in, each row with its line, and all that is wrong with the others. */
export interface ReadLines<Row> {
  readonly rows: readonly { readonly line: number; readonly row: Row }[];
  /** By line. */
  readonly problems: readonly RowProblem[];
}

/** A row with the key that no other may have, or all that is wrong with its line. */
export type ReadLine<Row> = { row: Row; key: string } | { problems: readonly RowProblem[] };

/**
 * Reads a table line by line. A line with anything wrong gives no row; every problem of every line is
 * told. Of two lines with the same key only the first gives a row.
 *
 * @param repeats the name for the problem of a line that repeats an earlier one
 */
export function readEach<Row>(
  table: Table,
  repeats: "repeats" | "name-repeats",
  readLine: (row: TableRow) => ReadLine<Row>,
): ReadLines<Row> {
  const rows: { line: number; row: Row }[] = [];
  const problems: RowProblem[] = table.broken.map(({ line, problem, have, most }) =>
    problem === "quote-open" ? { line, kind: problem } : { line, kind: problem, have, most },
  );
  const lineOf = new Map<string, number>();
  for (const tableRow of table.rows) {
    const { line } = tableRow;
    const read = readLine(tableRow);
    if (!("row" in read)) {
      problems.push(...read.problems);
      continue;
    }
    const earlier = lineOf.get(read.key);
    if (earlier !== undefined) {
      problems.push({ line, kind: repeats, earlier });
      continue;
    }
    lineOf.set(read.key, line);
    rows.push({ line, row: read.row });
  }
  return { rows, problems: problems.toSorted((one, other) => one.line - other.line) };
}
