import type { Student } from "../../shared/roster/roster.ts";
import { csvText } from "../../shared/transfer/csv-field.ts";
import type { LedgerLine } from "../../shared/transfer/ledger-line.ts";

const columns = [
  "student",
  "at",
  "day",
  "source",
  "rule",
  "amount",
  "due",
  "forgiven",
  "privilege",
] as const;

/** The ledger of points as a CSV file: one line an entry, in the order in which they were written. */
export function ledgerCsv(
  lines: readonly LedgerLine[],
  students: readonly Pick<Student, "id" | "name">[],
): string {
  const names = new Map(students.map(({ id, name }) => [id, name]));
  return csvText([
    columns,
    ...lines.map((line) => [
      names.get(line.studentId) ?? "",
      line.at,
      line.day,
      line.source,
      line.rule,
      String(line.amount),
      line.due === null ? "" : String(line.due),
      String(line.forgiven),
      line.privilege ?? "",
    ]),
  ]);
}
