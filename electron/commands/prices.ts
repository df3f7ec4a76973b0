import { parseArgs } from "node:util";
import { type EarningRules, noRules } from "../../shared/plan/earning.ts";
import type { PlanSettings } from "../../shared/plan/plan.ts";
import { chanceOf, type Income, type Recorder } from "../../shared/points/income.ts";
import { type Prices, pricesFor, type RuleChange } from "../../shared/points/planner.ts";
import { expectedCues } from "../../shared/schedule/kept-counts.ts";
import { type Command, CommandError, type CommandOutput } from "./command.ts";
import { formatDuration } from "./duration.ts";
import {
  fraction,
  type NumberForm,
  number,
  parseProblem,
  planHelp,
  planOptions,
  readPlanOptions,
  wholeNumber,
  withNegativeValues,
} from "./plan-options.ts";

const help = `Usage: cli prices [options]

Computes what a plan's sessions pay a student, exactly and without simulation, and proposes prices for
cheap, medium and expensive privileges. Give the figures of your weakest student.

Plan
${planHelp}

Student
  --rate N            share of marks that are on task, 0 to 1 (0.8)
  --answers N         share of cues that get a mark, 0 to 1 (0.95)
  --dispersion N      design effect of a session's marks, 1 to 20: how alike they are (1)
  --checked N         share of cues that are spot-checked, 0 to 1 (0)
  --matching N        share of checked marks that match, 0 to 1 (0.9)

Points
  --per-mark N        for each recorded mark, on or off (1)
  --per-on N          more for each on-task mark (1)
  --per-match N       for each mark that equals a spot check (0)
  --given N           points an adult gives this student a day, on average (0)

Day
  --sessions N        sessions a day, 1 to 12 (3)
  --exchanges N       exchanges a day, 1 to 12 (1)

Output
  --json              {plan, student, expectedCues, session, day, bands, change}
  -h, --help          this text

In --json: session and day have mean and variance in points; q10, q50, q90, the points not passed with
that chance; none, the chance of no point; atLeastTwo, of two or more; chances, of 0, 1, 2 ... points
(from the last above 1e-6 on left out). bands: low, the price that at least nine exchanges in ten can pay;
middle, up to two days of saving; high, at most a school week of it, or null; promise, the chance to
afford low at an exchange. change: what would keep the promise where no price does, else null.

TIME is 90, 90s, 2m, 1m30s, 1h or 1:30.

Example: cli prices --law exponential --mean 2m --length 20m --shortest 20s --rate .8 --answers .95
  --dispersion 1.6 --sessions 3 --per-mark 0 --per-on 1 --json`;

/** What a plan pays, and which prices fit it. */
export const prices: Command = {
  summary: "compute what a plan pays in points, and propose prices",
  help,
  async run(args, output) {
    const values = readOptions(args);
    const rules: EarningRules = {
      ...noRules,
      mark: count("per-mark", values["per-mark"], 1, [0, 20]),
      on: count("per-on", values["per-on"], 1, [0, 20]),
      match: count("per-match", values["per-match"], 0, [0, 20]),
    };
    const plan: PlanSettings = { ...readPlanOptions(values), earning: { kind: "own", rules } };
    const student: Recorder = {
      onTask: share("rate", values.rate, 0.8),
      answers: share("answers", values.answers, 0.95),
      designEffect: within(
        "dispersion",
        number("dispersion", values.dispersion, decimal, 1),
        [1, 20],
      ),
      checked: share("checked", values.checked, 0),
      matching: share("matching", values.matching, 0.9),
      items: 0,
    };
    const found = pricesFor({
      plan,
      rules,
      students: [student],
      sessions: count("sessions", values.sessions, 3, [1, 12]),
      exchanges: count("exchanges", values.exchanges, 1, [1, 12]),
      givenADay: within("given", number("given", values.given, decimal, 0), [0, 100]),
    });
    const cues = expectedCues(plan);
    if (values.json === true) return writeJson(output, { plan, student, cues, found });
    output.write(pageOf(plan, cues, found));
  },
};

function readOptions(args: readonly string[]) {
  const text = { type: "string" } as const;
  try {
    return parseArgs({
      args: withNegativeValues(args),
      strict: true,
      options: {
        ...planOptions,
        rate: text,
        answers: text,
        dispersion: text,
        checked: text,
        matching: text,
        "per-mark": text,
        "per-on": text,
        "per-match": text,
        given: text,
        sessions: text,
        exchanges: text,
        json: { type: "boolean" },
      },
    }).values;
  } catch (error) {
    throw new CommandError(`${parseProblem(error)}. See cli prices --help.`);
  }
}

const decimal: NumberForm = { pattern: /^\d*\.?\d+$/, words: "a number such as 1.6" };
type Bounds = readonly [least: number, most: number];

function within(option: string, value: number, [least, most]: Bounds): number {
  if (value >= least && value <= most) return value;
  throw new CommandError(`--${option} ${value}: write a number from ${least} to ${most}.`);
}

const share = (option: string, text: string | undefined, fallback: number) =>
  within(option, number(option, text, fraction, fallback), [0, 1]);

const count = (option: string, text: string | undefined, fallback: number, bounds: Bounds) =>
  within(option, number(option, text, wholeNumber, fallback), bounds);

interface Result {
  readonly plan: PlanSettings;
  readonly student: Recorder;
  readonly cues: number;
  readonly found: Prices;
}

function writeJson(output: CommandOutput, { plan, student, cues, found }: Result): void {
  const [income] = found.students;
  if (income === undefined) return;
  const { bands, change } = found;
  const result = {
    plan,
    student,
    expectedCues: rounded(cues),
    session: figures(income.session),
    day: figures(income.day),
    bands: { ...bands, promise: rounded(bands.promise) },
    change,
  };
  output.write(`${JSON.stringify(result, null, 2)}\n`);
}

function figures(income: Income) {
  const chances = [...income.chances];
  const last = chances.findLastIndex((chance) => chance >= 1e-6);
  return {
    mean: rounded(income.mean),
    variance: rounded(income.variance),
    ...income.quantiles,
    none: rounded(income.chances[0] ?? 0),
    atLeastTwo: rounded(chanceOf(income, 2)),
    chances: chances.slice(0, last + 1).map(rounded),
  };
}

/** To six decimals. */
const rounded = (value: number): number => Math.round(value * 1e6) / 1e6;

function pageOf(plan: PlanSettings, cues: number, { students, bands, change }: Prices): string {
  const [income] = students;
  if (income === undefined) return "";
  const line = (name: string, { mean, quantiles }: Income) =>
    `${name.padEnd(10)}${mean.toFixed(1)} points on average; ${quantiles.q10} to ${quantiles.q90} in eight of ten`;
  const high =
    bands.high === null ? "no expensive ones: nobody should save longer than a week" : bands.high;
  return `${[
    `${plan.law} intervals of ${formatDuration(plan.meanSeconds)} over ${formatDuration(plan.lengthSeconds)}: about ${cues.toFixed(1)} cues`,
    line("Session", income.session),
    line("Day", income.day),
    "",
    `Prices    cheap ${bands.low}, middle ${bands.middle}, dear ${high}`,
    `Promise   something can be afforded at ${Math.round(100 * bands.promise)} of 100 exchanges`,
    ...(change === null ? [] : [`Change    ${changeLine(change)}`]),
  ].join("\n")}\n`;
}

function changeLine(change: RuleChange): string {
  switch (change.kind) {
    case "pay-for-recording":
      return "no price keeps the promise: pay a point for each recorded mark, on or off (--per-mark 1)";
    case "give-more":
      return `no price keeps the promise: give this student about ${change.pointsADay} points a day (--given ${change.pointsADay})`;
    case "denser-cues":
      return `no price keeps the promise: cue more often (--mean ${formatDuration(change.meanSeconds)})`;
    case "cheaper":
      return "no price keeps the promise: add something that costs nothing but your time";
  }
}
