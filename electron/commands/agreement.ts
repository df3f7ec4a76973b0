import {
  type AgreementLevel,
  type AgreementNote,
  type AgreementSummary,
  agreementBy,
  agreementSummary,
} from "../../shared/agreement/agreement-summary.ts";
import { type CorrectedRate, correctedRate } from "../../shared/agreement/corrected-rate.ts";
import type {
  AgreementStep,
  KnownReason,
  MatchReading,
  UnknownReason,
} from "../../shared/agreement/match-reading.ts";
import { matchThresholds } from "../../shared/agreement/match-reading.ts";
import type { DisagreementDirection } from "../../shared/agreement/mcnemar.ts";
import { agreementThresholds } from "../../shared/agreement/thresholds.ts";
import { firstRecordOf, twoByTwo } from "../../shared/agreement/two-by-two.ts";
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
  offRecordedOn:
    "of the cues that the second record calls off, the share that the first calls on, with a 95 % Wilson interval",
  "kappa.value": "Cohen's kappa, (observed - expected) / (1 - expected)",
  "kappa.standardError":
    "large-sample standard error (Fleiss, Cohen & Everitt 1969); null where one record is all alike",
  "kappa.standardErrorUnderZero": "standard error if the true kappa were 0",
  "kappa.greatestPossible": "the greatest kappa that these margins allow",
  "ac1.value, standardError":
    "Gwet's AC1 (2008): chance-corrected agreement that stays level when nearly all cues are of one kind",
  "kappa.adjusted": "prevalence- and bias-adjusted kappa, 2 observed - 1",
  "indices.prevalence": "(bothOn - bothOff) / compared",
  "indices.bias":
    "(firstOnly - secondOnly) / compared; above 0 the first record says on more often",
  "mcNemar.probability": "exact two-sided probability of so lopsided a split of the disagreements",
  "mcNemar.direction": "which way the disagreements lean, named at .05",
  "mcNemar.oneSidedProbability":
    "exact one-sided probability that so many disagreements or more are on in the first record alone",
  level:
    "too-few-checks, below-80, fair or strong: the percentage alone, by the thresholds (this was called reading before)",
  "reading.match":
    "good, fair, low or cannot-tell: whether the first record matches the second, moments seen off read by themselves; a record that is on at every cue is cannot-tell or low",
  "reading.reason":
    "cannot-tell: no-checks, few-checks, all-recorded-on, all-recorded-off, all-seen-on, all-seen-off, no-better-than-chance (Fisher's exact test, one-sided .05); low: below-80, off-recorded-on; fair: below-90, leans-to-on, few-seen-off; good: matches",
  "reading.next":
    "check-more, let-checks-thin (only where the lower limit of agreement is above what a record that is always on would have reached), reward-matching, practise-target",
  corrected:
    "the first record's on rate corrected by the compared cues (Rogan & Gladen 1978; interval of Lang & Reiczigel 2014, cues taken as independent): what the second record would have found at all cues; withheld under five compared cues of each kind",
  notes: "what keeps the reading from being better, or what to know beside it",
  next: "the same as reading.next",
  "reading (at the top)": "the reading of all students together",
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

  --json    {about, thresholds, reading, students: [{student, ..., weeks}], all: {..., weeks}}, every
            key explained in "about"
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
        ...besides(pairs.filter((pair) => pair.student === student)),
      }),
    );
    const all = { ...agreementSummary(pairs), ...besides(pairs) };
    if (values.json) {
      const { reading } = all;
      const thresholds = { ...agreementThresholds, ...matchThresholds };
      const answer = { about, thresholds, reading, students, all };
      return output.write(`${JSON.stringify(answer, null, 2)}\n`);
    }
    const pages = students.map(({ student, ...summary }) => page(student, summary));
    if (students.length !== 1) pages.push(page("All together", all));
    output.write(`${pages.join("\n\n")}\n`);
  },
};

/** What is told beside the summary: the rate as the second record would have it, and the school weeks. */
const besides = (pairs: readonly StudentPair[]) => ({
  corrected: correctedRate(twoByTwo(pairs), firstRecordOf(pairs)),
  weeks: weeksOf(pairs),
});

/** Agreement by school week, oldest first; rows without a day are left out. */
function weeksOf(pairs: readonly StudentPair[]) {
  const dated = pairs.flatMap(({ monday, ...pair }) =>
    monday === null ? [] : [{ ...pair, monday }],
  );
  return [...agreementBy(dated, ({ monday }) => monday)]
    .map(([monday, summary]) => ({ monday, ...summary }))
    .sort((one, other) => (one.monday < other.monday ? -1 : 1));
}

const levels: Record<AgreementLevel, string> = {
  "too-few-checks": `too few cues compared (${agreementThresholds.fewestCompared} are needed)`,
  "below-80": "BELOW 80 %",
  fair: "80 % or more",
  strong: "90 % or more",
};

const unknowns: Record<UnknownReason, string> = {
  "no-checks": "no cue was compared",
  "few-checks": "too few cues were compared",
  "all-recorded-on": "the first record says on at every cue",
  "all-recorded-off": "the first record says off at every cue",
  "all-seen-on": "the second record says on at every cue",
  "all-seen-off": "the second record says off at every cue",
  "no-better-than-chance": "chance could have done as well",
};

const grounds: Record<KnownReason, string> = {
  "below-80": "fewer than 80 % match",
  "off-recorded-on": "too many cues seen off are recorded on",
  "below-90": "80 % or more match",
  "leans-to-on": "differences lean toward recording on",
  "few-seen-off": "too few cues were seen off to say more",
  matches: "90 % or more match, those seen off too",
};

function wordMatch(reading: MatchReading): string {
  return reading.match === "cannot-tell"
    ? `Cannot tell whether the records match: ${unknowns[reading.reason]}.`
    : `Match ${reading.match}: ${grounds[reading.reason]}.`;
}

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
  "practise-target": "Next: practice the target with examples and non-examples.",
};

type Told = AgreementSummary & { readonly corrected: ReturnType<typeof correctedRate> };

function page(title: string, summary: Told): string {
  const { table, percent, occurrence, nonOccurrence, offRecordedOn, mcNemar } = summary;
  const { firstBlank, secondBlank, bothBlank } = table.leftOut;
  const share = (result: typeof occurrence | typeof nonOccurrence) =>
    result.kind === "computed" ? percentText(result.value) : "not computable";
  return [
    title,
    `  ${table.compared} cues compared, ${firstBlank + secondBlank + bothBlank} left out with a blank`,
    percent.kind === "computed"
      ? `  Agreement ${percentText(percent.value)} (${intervalText(percent.interval)}): ${levels[summary.level]}`
      : "  Agreement not computable: no cue has both records",
    `  Occurrence ${share(occurrence)}, non-occurrence ${share(nonOccurrence)}`,
    offRecordedOn.kind === "computed"
      ? `  Of ${offRecordedOn.seenOff} seen off ${offRecordedOn.recordedOn} recorded on (${intervalText(offRecordedOn.interval)})`
      : "  Nothing was seen off",
    `  ${chanceText(summary)}`,
    `  ${directions[mcNemar.direction]}`,
    ...summary.notes.map((note) => `  ${notes[note]}`),
    ...correctedText(summary.corrected),
    `  ${wordMatch(summary.reading)}`,
    `  ${steps[summary.next]}`,
  ].join("\n");
}

function chanceText({ kappa, ac1 }: AgreementSummary): string {
  if (kappa.kind === "not-computable" || ac1.kind === "not-computable")
    return ac1.kind === "computed"
      ? `Kappa not computable, AC1 ${ac1.value.toFixed(2)}`
      : "Kappa not computable";
  const error =
    kappa.standardError === null
      ? "no standard error: one record is all alike"
      : `standard error ${kappa.standardError.toFixed(2)}`;
  return `Kappa ${kappa.value.toFixed(2)} (${error}), adjusted ${kappa.adjusted.toFixed(2)}, AC1 ${ac1.value.toFixed(2)}`;
}

function correctedText(corrected: Told["corrected"]): string[] {
  if (corrected.kind === "not-computable") return [];
  const { value, interval, recorded }: CorrectedRate = corrected;
  return [
    `  On task about ${percentText(value)} (${intervalText(interval)}) as the second record would have it, ${percentText(recorded)} by the first`,
  ];
}

const intervalText = ({ lower, upper }: { lower: number; upper: number }): string =>
  `${percentText(lower)} to ${percentText(upper)}`;

function percentText(share: number): string {
  return `${(share * 100).toFixed(1).replace(/\.0$/, "")} %`;
}
