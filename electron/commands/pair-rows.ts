import type { MarkPair, PairValue } from "../../shared/agreement/two-by-two.ts";
import { dayNumber, dayText, mondayOf } from "../../shared/calendar/calendar.ts";
import { type BadRow, type CsvRow, readCsv, refuseBadRows } from "./csv-table.ts";

export const pairColumns = ["student", "cue", "first", "second"] as const;
const morePairColumns = ["day"] as const;
type PairFields = CsvRow<(typeof pairColumns)[number] | "day">["fields"];

export type StudentPair = MarkPair & {
  readonly student: string;
  /** Monday of the school week, `YYYY-MM-DD`; null when the row has no day. */
  readonly monday: string | null;
};

/**
 * Reads pairs of records of the same cue: `on`, `off`, or blank. Cue numbers may repeat, as those of
 * several sessions do.
 *
 * @throws CommandError that lists every bad row.
 */
export function readPairs(text: string): StudentPair[] {
  const { rows, bad } = readCsv(text, pairColumns, morePairColumns);
  const problems: BadRow[] = [...bad];
  const pairs: StudentPair[] = [];
  for (const { line, fields } of rows) {
    problems.push(...problemsOf(fields).map((problem) => ({ line, problem })));
    const first = markOf(fields.first);
    const second = markOf(fields.second);
    const monday = mondayIn(fields.day);
    if (first === undefined || second === undefined || monday === undefined) continue;
    pairs.push({ student: fields.student, monday, first, second });
  }
  refuseBadRows(problems);
  return pairs;
}

function problemsOf(fields: PairFields): string[] {
  const problems: string[] = [];
  if (fields.student === "") problems.push("no student.");
  if (!/^\d+$/.test(fields.cue)) problems.push(`cue is "${fields.cue}"; write the cue's number.`);
  for (const column of ["first", "second"] as const) {
    if (markOf(fields[column]) === undefined)
      problems.push(`${column} is "${fields[column]}"; write on, off or nothing.`);
  }
  if (mondayIn(fields.day) === undefined)
    problems.push(`day is "${fields.day}"; write it as 2026-03-09, or leave it empty.`);
  return problems;
}

/** Null for an empty field, undefined for what is no day. */
function mondayIn(field: string): string | null | undefined {
  if (field === "") return null;
  try {
    return dayText(mondayOf(dayNumber(field)));
  } catch {
    return undefined;
  }
}

/** A blank is `none` in either record: no data, whoever left it. */
function markOf(field: string): PairValue | undefined {
  const word = field.toLowerCase();
  if (word === "") return "none";
  return word === "on" || word === "off" ? word : undefined;
}
