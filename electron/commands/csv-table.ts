import Papa from "papaparse";
import { withoutGuard } from "../../shared/transfer/csv-field.ts";
import { csvRecords } from "../../shared/transfer/csv-records.ts";
import { mostRows } from "../../shared/transfer/import-limits.ts";
import { CommandError } from "./command.ts";

/**
 * One record of a table: its fields by column, trimmed and without the apostrophe that guards a text
 * against spreadsheets, and the line of the file on which it begins.
 */
export interface CsvRow<Column extends string> {
  readonly line: number;
  readonly fields: Readonly<Record<Column, string>>;
}

/** What is wrong with one line, as a sentence for the person who can correct it. */
export interface BadRow {
  readonly line: number;
  readonly problem: string;
}

export interface CsvTable<Column extends string> {
  readonly rows: readonly CsvRow<Column>[];
  readonly bad: readonly BadRow[];
}

/**
 * Reads a table with a header line (RFC 4180; semicolons or tabs do as well as commas). Columns may come
 * in any order and in capitals; others are ignored, as are empty lines. Rows that cannot be read are
 * reported with the rest left whole, so that all of them can be named at once.
 *
 * @param more columns that may be absent; their fields are then empty
 * @throws CommandError when there is no header, or a column is missing or there twice.
 */
export function readCsv<Column extends string, More extends string = never>(
  text: string,
  columns: readonly Column[],
  more: readonly More[] = [],
): CsvTable<Column | More> {
  const records = csvRecords(text, (body, options) => Papa.parse<string[]>(body, options));
  const header = records.shift();
  if (header === undefined) {
    throw new CommandError(`The file is empty; its first line must be ${columns.join(",")}.`);
  }
  if (records.length > mostRows) {
    throw new CommandError(
      `The file has ${records.length} rows; at most ${mostRows} can be read at once. Split it into several files.`,
    );
  }
  const places = placesOf(header.fields, columns, more);
  const rows: CsvRow<Column | More>[] = [];
  const bad: BadRow[] = [];
  for (const { line, fields, isOpen } of records) {
    if (isOpen)
      bad.push({
        line,
        problem:
          "a quotation mark is opened and not closed; what comes after it may not have been read.",
      });
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

function placesOf<Column extends string, More extends string>(
  header: readonly string[],
  columns: readonly Column[],
  more: readonly More[],
): Map<Column | More, number> {
  const names = header.map((name) => name.toLowerCase());
  const missing = columns.filter((column) => !names.includes(column));
  if (missing.length > 0) {
    throw new CommandError(
      `Line 1: no column ${missing.map((name) => `"${name}"`).join(", ")}; the first line must be ${columns.join(",")}.`,
    );
  }
  const known = [...columns, ...more];
  const twice = known.find((column) => names.indexOf(column) !== names.lastIndexOf(column));
  if (twice !== undefined) throw new CommandError(`Line 1: the column "${twice}" is there twice.`);
  return new Map(known.map((column) => [column, names.indexOf(column)]));
}

function pick<Column extends string>(
  fields: readonly string[],
  places: ReadonlyMap<Column, number>,
): Record<Column, string> {
  const entries = [...places].map(([column, place]) => [
    column,
    withoutGuard(fields[place] ?? "").trim(),
  ]);
  // Object.fromEntries forgets the keys' type; the map holds every column.
  return Object.fromEntries(entries) as Record<Column, string>;
}
