import Papa from "papaparse";
import { csvRecords } from "../../shared/transfer/csv-records.ts";
import { CommandError } from "./command.ts";

/** One record of a table: its fields by column, trimmed, and the line of the file on which it begins. */
export type CsvRow<Column extends string> = {
  readonly line: number;
  readonly fields: Readonly<Record<Column, string>>;
};

/** What is wrong with one line, as a sentence for the person who can mend it. */
export type BadRow = { readonly line: number; readonly problem: string };

export type CsvTable<Column extends string> = {
  readonly rows: readonly CsvRow<Column>[];
  readonly bad: readonly BadRow[];
};

/**
 * Reads a table with a header line (RFC 4180; semicolons or tabs do as well as commas). Columns may come
 * in any order and in capitals; others are ignored, as are empty lines. Rows that cannot be read are
 * reported with the rest left whole, so that all of them can be named at once.
 *
 * Errors: CommandError when there is no header, or a column is missing or there twice.
 */
export function readCsv<Column extends string>(
  text: string,
  columns: readonly Column[],
): CsvTable<Column> {
  const [header, ...records] = csvRecords(text, (body, options) =>
    Papa.parse<string[]>(body, options),
  );
  if (header === undefined) {
    throw new CommandError(`The file is empty; its first line must be ${columns.join(",")}.`);
  }
  const places = placesOf(header.fields, columns);
  const rows: CsvRow<Column>[] = [];
  const bad: BadRow[] = [];
  for (const { line, fields, isOpen } of records) {
    if (isOpen) bad.push({ line, problem: "a quotation mark is opened and not closed." });
    else if (fields.length !== header.fields.length)
      bad.push({
        line,
        problem: `the header has ${header.fields.length} columns, this row ${fields.length}.`,
      });
    else rows.push({ line, fields: pick(fields, places) });
  }
  return { rows, bad };
}

/** Throws the one CommandError that lists every bad row by line. Does nothing without any. */
export function refuseBadRows(bad: readonly BadRow[]): void {
  if (bad.length === 0) return;
  const lines = [...bad]
    .sort((one, other) => one.line - other.line)
    .map(({ line, problem }) => `Line ${line}: ${problem}`);
  const rows = new Set(bad.map(({ line }) => line)).size;
  const count = rows === 1 ? "1 bad row" : `${rows} bad rows`;
  throw new CommandError([`Nothing was computed: ${count}.`, ...lines].join("\n"));
}

function placesOf<Column extends string>(
  header: readonly string[],
  columns: readonly Column[],
): Map<Column, number> {
  const names = header.map((name) => name.toLowerCase());
  const missing = columns.filter((column) => !names.includes(column));
  if (missing.length > 0) {
    throw new CommandError(
      `Line 1: no column ${missing.map((name) => `"${name}"`).join(", ")}; the first line must be ${columns.join(",")}.`,
    );
  }
  const twice = columns.find((column) => names.indexOf(column) !== names.lastIndexOf(column));
  if (twice !== undefined) throw new CommandError(`Line 1: the column "${twice}" is there twice.`);
  return new Map(columns.map((column) => [column, names.indexOf(column)]));
}

function pick<Column extends string>(
  fields: readonly string[],
  places: ReadonlyMap<Column, number>,
): Record<Column, string> {
  const entries = [...places].map(([column, place]) => [column, fields[place] ?? ""]);
  // Object.fromEntries forgets the keys' type; the map holds every column.
  return Object.fromEntries(entries) as Record<Column, string>;
}
