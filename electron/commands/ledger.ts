import { z } from "zod";
import { type LedgerSummary, ledgerSummaries } from "../../shared/points/ledger-summary.ts";
import { ledgerLineSchema } from "../../shared/transfer/ledger-line.ts";
import { type Command, CommandError } from "./command.ts";
import { readFileOptions } from "./read-options.ts";
import { readText } from "./read-text.ts";

const help = `Usage: cli ledger FILE [--json]

Reads the ledger of points in a group's or a student's record, as the app saves it (version 4 or later),
and prints each student's balance, points given and taken with their ratio, points spent, and income.

  FILE        the record, a JSON file; - for standard input
  --json      {students: [{name, studentId, balance, given, taken, ratio, spent, days, incomeADay}]}
  -h, --help  this text

given: earned and given, less what was taken back. ratio: given for each point taken, null when nothing was
taken. days: days on which anything came in; incomeADay: given less taken on such a day, or null.`;

/** Students as either record names them. */
const named = z.object({ id: z.string(), name: z.string() });
const recordSchema = z.object({
  form: z.enum(["pebblechime-group-record", "pebblechime-student-record"]),
  version: z.number(),
  ledger: z.array(ledgerLineSchema).optional(),
  students: z.array(named).optional(),
  student: named.optional(),
});

/** Balances, ratios and income from an exported record. */
export const ledger: Command = {
  summary: "add up the points of an exported record",
  help,
  async run(args, output) {
    const { path, values } = readFileOptions("ledger", args, {
      json: { type: "boolean", default: false },
    });
    const { lines, names } = read(await readText(path));
    const students = ledgerSummaries(lines).map((summary) => ({
      name: names.get(summary.studentId) ?? "",
      ...summary,
    }));
    if (values.json) return output.write(`${JSON.stringify({ students }, null, 2)}\n`);
    output.write(students.length === 0 ? "There are no points in this record.\n" : page(students));
  },
};

function read(text: string) {
  const parsed = recordSchema.safeParse(json(text));
  if (!parsed.success) {
    throw new CommandError(
      "This is not a record saved by Pebblechime; save one under Import and export, as JSON.",
    );
  }
  const { version, ledger: lines, students = [], student } = parsed.data;
  if (lines === undefined) {
    throw new CommandError(`Version ${version} of the record holds no points; save it again.`);
  }
  const all = student === undefined ? students : [student, ...students];
  return { lines, names: new Map(all.map(({ id, name }) => [id, name])) };
}

function json(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new CommandError("This file is not JSON; save the record again under Import and export.");
  }
}

function page(students: readonly (LedgerSummary & { readonly name: string })[]): string {
  const lines = students.map(
    ({ name, balance, given, taken, ratio, spent, incomeADay }) =>
      `${name.padEnd(20)}balance ${balance}, given ${given}, taken ${taken}${ratio === null ? "" : ` (${ratio.toFixed(1)} to one)`}, spent ${spent}, ${incomeADay === null ? "no income" : `${incomeADay.toFixed(1)} a day`}`,
  );
  return `${lines.join("\n")}\n`;
}
