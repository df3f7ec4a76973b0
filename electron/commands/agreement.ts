import {
  type AgreementNote,
  type AgreementReading,
  type AgreementStep,
  type AgreementSummary,
  agreementBy,
  agreementSummary,
} from "../../shared/agreement/agreement-summary.ts";
import type { DisagreementDirection } from "../../shared/agreement/mcnemar.ts";
import { agreementThresholds } from "../../shared/agreement/thresholds.ts";
import type { Command } from "./command.ts";
import { pairColumns, readPairs, type StudentPair } from "./pair-rows.ts";
import { readFileOptions } from "./read-options.ts";
import { readText } from "./read-text.ts";

/** What each key of the answer means; printed with it. */
const about = {
  "table.bothOn, firstOnly, secondOnly, bothOff":
    "cues at which both records say on, only the first, only the second, neither",
  "table.leftOut": "cues left out because the first, the second or both records are blank",
  percent: "point-by-point agreement: matching / compared, with a 95 % Wilson interval",
  occurrence: "bothOn / (bothOn + firstOnly + secondOnly), also called scored-interval agreement",
  nonOccurrence: "bothOff / (bothOff + firstOnly + secondOnly), unscored-interval agreement",
  "kappa.value": "Cohen's kappa, (observed - expected) / (1 - expected)",
  "kappa.standardError": "large-sample standard error (Fleiss, Cohen & Everitt 1969)",
  "kappa.standardErrorUnderZero": "standard error if the true kappa were 0",
  "kappa.greatestPossible": "the greatest kappa that these margins allow",
  "kappa.adjusted": "prevalence- and bias-adjusted kappa, 2 observed - 1",
  "indices.prevalence": "(bothOn - bothOff) / compared",
  "indices.bias":
    "(firstOnly - secondOnly) / compared; above 0 the first record says on more often",
  "mcNemar.probability": "exact two-sided probability of so lopsided a split of the disagreements",
  "mcNemar.direction": "which way the disagreements lean, named at .05",
  reading: "too-few-checks, below-80, fair or strong, by the thresholds",
  notes: "what keeps the reading from being better, or what to know beside it",
  next: "what to do next",
  weeks: "the same by school week, where rows have a day: monday is its first day; oldest first",
  "kind: not-computable": "the number does not exist for these data; reason says why",
} as const;

const help = `Usage: cli agreement FILE [--json]

How well two records of the same cues match: self-records and spot checks, or two observers. For each
student and for all together: percent agreement with its interval, occurrence and non-occurrence, kappa
with its errors, and which way the disagreements lean.

FILE is CSV with the columns ${pairColumns.join(",")}; "-" reads standard input.
  student   name or code
  cue       the cue's number
  first     on, off, or blank: the self-record, or the first observer
  second    on, off, or blank: the spot check, or the second observer
  day       may be absent: the local day, as 2026-03-09, for agreement by school week
A cue with a blank is left out and counted. Bad rows: all are listed by line and nothing is computed
(exit code 2).

  --json    {about, thresholds, students: [{student, ..., weeks}], all: {..., weeks}}, every key
            explained in "about"
  --help    this text

Keys
${Object.entries(about)
  .map(([key, meaning]) => `  ${key}\n      ${meaning}`)
  .join("\n")}`;

/** Agreement of two records of the same cues, from a file. */
export const agreement: Command = {
  summary: "compare two records of the same cues, such as self-records and spot checks",
  help,
  async run(args, output) {
    const { path, values } = readFileOptions("agreement", args, {
      json: { type: "boolean", default: false },
    });
    const pairs = readPairs(await readText(path));
    const students = [...agreementBy(pairs, ({ student }) => student)].map(
      ([student, summary]) => ({
        student,
        ...summary,
        weeks: weeksOf(pairs.filter((pair) => pair.student === student)),
      }),
    );
    const all = { ...agreementSummary(pairs), weeks: weeksOf(pairs) };
    if (values.json) {
      const answer = { about, thresholds: agreementThresholds, students, all };
      return output.write(`${JSON.stringify(answer, null, 2)}\n`);
    }
    const pages = students.map(({ student, ...summary }) => page(student, summary));
    if (students.length !== 1) pages.push(page("All together", all));
    output.write(`${pages.join("\n\n")}\n`);
  },
};

/** Agreement by school week, oldest first; rows without a day are left out. */
function weeksOf(pairs: readonly StudentPair[]) {
  const dated = pairs.flatMap(({ monday, ...pair }) =>
    monday === null ? [] : [{ ...pair, monday }],
  );
  return [...agreementBy(dated, ({ monday }) => monday)]
    .map(([monday, summary]) => ({ monday, ...summary }))
    .sort((one, other) => (one.monday < other.monday ? -1 : 1));
}

const readings: Record<AgreementReading, string> = {
  "too-few-checks": `too few cues compared (${agreementThresholds.fewestCompared} are needed)`,
  "below-80": "BELOW 80 %",
  fair: "fair",
  strong: "strong",
};

const directions: Record<DisagreementDirection, string> = {
  "first-says-on-more": "The first record says on where the second says off.",
  "second-says-on-more": "The first record says off where the second says on.",
  "no-clear-direction": "Disagreements go both ways.",
  "too-few-disagreements": "Too few disagreements to see a direction.",
};

const notes: Record<AgreementNote, string> = {
  "kappa-below-60": "Kappa is below .60: part of the matching may be chance.",
  "nearly-one-sided": "Nearly all cues were of one kind, so kappa says little.",
  "could-be-below-80": "With so few cues the true agreement could be below 80 %.",
};

const steps: Record<AgreementStep, string> = {
  "check-more": "Next: check more cues.",
  "let-checks-thin": "Next: checks may become rarer.",
  "reward-matching": "Next: check every cue and reward a match.",
  "practise-target": "Next: practise the target with examples and non-examples.",
};

function page(title: string, summary: AgreementSummary): string {
  const { table, percent, occurrence, nonOccurrence, kappa, mcNemar } = summary;
  const { firstBlank, secondBlank, bothBlank } = table.leftOut;
  const share = (result: typeof occurrence | typeof nonOccurrence) =>
    result.kind === "computed" ? percentText(result.value) : "not computable";
  return [
    title,
    `  ${table.compared} cues compared, ${firstBlank + secondBlank + bothBlank} left out with a blank`,
    percent.kind === "computed"
      ? `  Agreement ${percentText(percent.value)} (${percentText(percent.interval.lower)} to ${percentText(percent.interval.upper)}): ${readings[summary.reading]}`
      : "  Agreement not computable: no cue has both records",
    `  Occurrence ${share(occurrence)}, non-occurrence ${share(nonOccurrence)}`,
    kappa.kind === "computed"
      ? `  Kappa ${kappa.value.toFixed(2)} (standard error ${kappa.standardError.toFixed(2)}), adjusted ${kappa.adjusted.toFixed(2)}`
      : "  Kappa not computable",
    `  ${directions[mcNemar.direction]}`,
    ...summary.notes.map((note) => `  ${notes[note]}`),
    `  ${steps[summary.next]}`,
  ].join("\n");
}

function percentText(share: number): string {
  return `${(share * 100).toFixed(1).replace(/\.0$/, "")} %`;
}
