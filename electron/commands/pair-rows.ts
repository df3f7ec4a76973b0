import type { MarkPair, PairValue } from "../../shared/agreement/two-by-two.ts";
import { type BadRow, type CsvRow, readCsv, refuseBadRows } from "./csv-table.ts";

export const pairColumns = ["student", "cue", "first", "second"] as const;
type PairFields = CsvRow<(typeof pairColumns)[number]>["fields"];

export type StudentPair = MarkPair & { readonly student: string };

/**
 * Reads pairs of records of the same cue: `on`, `off`, or blank. Cue numbers may repeat, as those of
 * several sessions do.
 *
 * Errors: CommandError that lists every bad row.
 */
export function readPairs(text: string): StudentPair[] {
  const { rows, bad } = readCsv(text, pairColumns);
  const problems: BadRow[] = [...bad];
  const pairs: StudentPair[] = [];
  for (const { line, fields } of rows) {
    problems.push(...problemsOf(fields).map((problem) => ({ line, problem })));
    const first = markOf(fields.first);
    const second = markOf(fields.second);
    if (first === undefined || second === undefined) continue;
    pairs.push({ student: fields.student, first, second });
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
  return problems;
}

/** A blank is `none` in either record: no data, whoever left it. */
function markOf(field: string): PairValue | undefined {
  const word = field.toLowerCase();
  if (word === "") return "none";
  return word === "on" || word === "off" ? word : undefined;
}
