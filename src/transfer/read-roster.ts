import type { RosterRow } from "../../shared/api/transfer.ts";
import { nameKey } from "../../shared/roster/name-key.ts";
import { withoutGuard } from "../../shared/transfer/csv-field.ts";
import { longestName, longestTarget } from "../../shared/transfer/import-limits.ts";
import type { ImportField, Mapping } from "./mapping.ts";
import { type ReadLine, type ReadLines, type RowProblem, readEach } from "./read-each.ts";
import type { Table, TableRow } from "./read-table.ts";

export interface RosterOptions {
  readonly mapping: Mapping;
  /** Names of the group's students, archived ones included. */
  readonly taken: readonly string[];
  /** The stored name of each picture by the words that a file may use for it, in small letters. */
  readonly pictures: ReadonlyMap<string, string>;
}

/** Understands a table as a list of students under a mapping: a name each, and what else has a column. */
export function readRoster(table: Table, options: RosterOptions): ReadLines<RosterRow> {
  const taken = new Set(options.taken.map(nameKey));
  return readEach(table, "name-repeats", (row) => readStudent(row, options, taken));
}

function readStudent(
  { line, fields }: TableRow,
  { mapping, pictures }: RosterOptions,
  taken: ReadonlySet<string>,
): ReadLine<RosterRow> {
  const text = (field: ImportField): string => {
    const at = mapping[field];
    return at === null ? "" : withoutGuard(fields[at] ?? "").trim();
  };
  const problems: RowProblem[] = [];
  const name = text("student");
  const target = text("target");
  const word = text("picture");
  const picture = word === "" ? null : pictures.get(word.toLowerCase());
  if (name === "") problems.push({ line, kind: "field", field: "student", found: "" });
  if (name.length > longestName) problems.push({ line, kind: "name-long", found: name });
  if (taken.has(nameKey(name))) problems.push({ line, kind: "name-taken", found: name });
  if (target.length > longestTarget) problems.push({ line, kind: "target-long" });
  if (picture === undefined) problems.push({ line, kind: "field", field: "picture", found: word });
  if (problems.length > 0 || picture === undefined) return { problems };
  return { row: { name, picture, target }, key: nameKey(name) };
}
