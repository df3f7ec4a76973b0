import Papa from "papaparse";
import { csvRecords } from "../../shared/transfer/csv-records.ts";

/** One record of a file, with the line on which it begins; the header is on line 1. */
export interface TableRow {
  readonly line: number;
  readonly fields: readonly string[];
}

/** A file as it was found: nothing of it is understood yet. */
export interface Table {
  readonly header: readonly string[];
  readonly rows: readonly TableRow[];
  /** Lines that could not be cut into fields. */
  readonly broken: readonly BrokenLine[];
}

export interface BrokenLine {
  readonly line: number;
  readonly problem: "quote-open" | "columns-differ";
  /** How many fields the line has, and how many the header. */
  readonly have: number;
  readonly most: number;
}

/**
 * The text of a file, whatever a spreadsheet wrote it in: UTF-8, UTF-16 with its mark, or else the
 * Western European code page. Null for a file that is no text, such as a workbook.
 */
export function decodeText(bytes: Uint8Array): string | null {
  const [first, second] = bytes;
  if (first === 0xff && second === 0xfe) return new TextDecoder("utf-16le").decode(bytes);
  if (first === 0xfe && second === 0xff) return new TextDecoder("utf-16be").decode(bytes);
  if (bytes.includes(0)) return null;
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("windows-1252").decode(bytes);
  }
}

/**
 * Cuts a text into a table: the first line that is not empty is the header. Commas, semicolons or tabs
 * part the fields. Fields are trimmed, empty lines are skipped. Null when there is no header.
 */
export function readTable(text: string): Table | null {
  const [header, ...records] = csvRecords(text, (body, options) =>
    Papa.parse<string[]>(body, options),
  );
  if (header === undefined) return null;
  const most = header.fields.length;
  const rows: TableRow[] = [];
  const broken: BrokenLine[] = [];
  for (const { line, fields, isOpen } of records) {
    const have = fields.length;
    if (isOpen) broken.push({ line, problem: "quote-open", have, most });
    else if (have !== most) broken.push({ line, problem: "columns-differ", have, most });
    else rows.push({ line, fields });
  }
  return { header: header.fields, rows, broken };
}
