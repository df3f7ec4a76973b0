/** One record of a file, with the line on which it begins. Fields are trimmed. */
export interface CsvRecord {
  readonly line: number;
  readonly fields: readonly string[];
  /** A quotation mark is opened and not closed as it should be. */
  readonly isOpen: boolean;
}

/** What is needed of a parser. It is passed in, because the library's types would bring Node along. */
export type ParseCsv = (
  text: string,
  options: {
    readonly delimiter: string;
    readonly step: (record: {
      readonly data: readonly string[];
      readonly errors: readonly unknown[];
      readonly meta: { readonly cursor: number };
    }) => void;
  },
) => void;

/**
 * Cuts a text into records (RFC 4180; semicolons or tabs do as well as commas, as the first line tells).
 * Records without any text are skipped, as is a byte order mark.
 */
export function csvRecords(text: string, parse: ParseCsv): CsvRecord[] {
  const body = text.startsWith("\uFEFF") ? text.slice(1) : text;
  const records: CsvRecord[] = [];
  let line = 1;
  let start = 0;
  parse(body, {
    delimiter: delimiterOf(body),
    step({ data, errors, meta }) {
      const fields = data.map((field) => field.trim());
      if (fields.some((field) => field !== "")) {
        records.push({ line, fields, isOpen: errors.length > 0 });
      }
      // A quoted field may hold line breaks, so lines are counted over the record's own text.
      line += body.slice(start, meta.cursor).split(/\r\n|\r|\n/).length - 1;
      start = meta.cursor;
    },
  });
  return records;
}

function delimiterOf(text: string): string {
  const [header = ""] = text.trimStart().split(/\r\n|\r|\n/, 1);
  return [",", ";", "\t"].find((delimiter) => header.includes(delimiter)) ?? ",";
}
