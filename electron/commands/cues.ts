import { randomBytes } from "node:crypto";
import { parseArgs } from "node:util";
import {
  type ChimeName,
  chimeNames,
  firstPlan,
  type LawName,
  lawNames,
  type PlanSettings,
} from "../../shared/plan/plan.ts";
import { checkPlan } from "../../shared/schedule/check-plan.ts";
import { type Guess, type GuessVerdict, guess } from "../../shared/schedule/guess.ts";
import { expectedCues } from "../../shared/schedule/kept-counts.ts";
import { mostLikelyCues } from "../../shared/schedule/most-likely-cues.ts";
import { sessionSchedule } from "../../shared/schedule/session-schedule.ts";
import { chimeFolder } from "../recording/chime-folder.ts";
import { chimeLoader } from "../recording/load-chime.ts";
import { planRecording } from "../recording/render-recording.ts";
import { writeWav } from "../recording/write-wav.ts";
import { type Command, CommandError } from "./command.ts";
import { formatClock, formatDuration, parseDuration } from "./duration.ts";
import { planProblemLine } from "./plan-problem-line.ts";

const help = `Usage: cli cues [options]

Prints the cues of one session: when each comes, counted from the start. The same plan and seed give the
same cues on every machine.

Plan
  --law NAME          exponential (unless told), uniform, balanced, or fixed (predictable)
  --mean TIME         mean interval between cues (${formatDuration(firstPlan.meanSeconds)})
  --length TIME       length of the session (${formatDuration(firstPlan.lengthSeconds)})
  --shortest TIME     no two cues are closer than this (${formatDuration(firstPlan.shortestGapSeconds)}, or less for a short mean)
  --longest TIME      no two cues are farther apart than this (no limit)
  --lead-in TIME      no cue in this time at the start (0s)
  --end-margin TIME   no cue in this time at the end (0s)
  --floor N           draw again until there are at least N cues (${firstPlan.fewestCues})
  --seed TEXT         what the draw starts from (a new one, printed with the cues)
  --student ID        one student's own cues from the same seed; a cue key prints them as the
                      stream cues/ID, the group's as the stream cues

Output
  --json              {seed, plan, cues: [seconds...], summary}
  --csv               one line a cue: number, seconds, clock
  --wav FILE          also write the session as a recording, with a chime at each cue;
                      16-bit, 48 kHz, about 6 MB a minute; an existing file is replaced
  --chime NAME        chime of the recording: ${chimeNames.join(", ")} (${firstPlan.chime})
  --volume N          volume of the recording, 0 to 1 (${firstPlan.volume})
  --no-announcements  leave out the chimes at the begin and the end of the recording

  -h, --help          this text

TIME is 90, 90s, 2m, 1m30s, 1h or 1:30.

Example: cli cues --law exponential --mean 2m --length 20m --shortest 20s --seed abc`;

/** Prints the schedule of one session, and writes it as a recording when asked. */
export const cues: Command = {
  summary: "print the cues of a session, or record them as sound",
  help,
  async run(args, output) {
    const values = readOptions(args);
    const plan = readPlan(values);
    const seed = word("seed", values.seed) ?? randomBytes(5).toString("hex");
    const studentId = word("student", values.student);
    if (values.wav === "") throw new CommandError("--wav: name the file to write.");
    const schedule = sessionSchedule(plan, seed, studentId === undefined ? {} : { studentId });
    if (values.wav !== undefined) {
      await writeRecording(values.wav, plan, schedule.cues, !values["no-announcements"]);
    }
    const result = { seed, plan, cues: schedule.cues, summary: summarize(plan, schedule.cues) };
    output.write(written(result, schedule.streamName, values));
  },
};

function readOptions(args: readonly string[]) {
  try {
    const text = { type: "string" } as const;
    const flag = { type: "boolean", default: false } as const;
    return parseArgs({
      args: withNegativeValues(args),
      strict: true,
      options: {
        law: text,
        mean: text,
        length: text,
        shortest: text,
        longest: text,
        "lead-in": text,
        "end-margin": text,
        floor: text,
        seed: text,
        student: text,
        chime: text,
        volume: text,
        json: flag,
        csv: flag,
        wav: text,
        "no-announcements": flag,
      },
    }).values;
  } catch (error) {
    throw new CommandError(`${refusalOf(error)}. See cli cues --help.`);
  }
}

/**
 * `--mean -5` as `--mean=-5`: parseArgs takes what begins with a dash for an option, and would say that no
 * value was written.
 */
function withNegativeValues(args: readonly string[]): string[] {
  const joined: string[] = [];
  for (const arg of args) {
    const before = joined.at(-1);
    const isValue = /^-[\d.]/.test(arg) && before !== undefined && /^--[\w-]+$/.test(before);
    if (isValue) joined.splice(-1, 1, `${before}=${arg}`);
    else joined.push(arg);
  }
  return joined;
}

/** What parseArgs found wrong, in one sentence that says what to do. */
function refusalOf(error: unknown): string {
  const message = String(error instanceof Error ? error.message : error);
  const option = /'(?:-\w, )?(--[\w-]+)/.exec(message)?.[1] ?? "";
  if (/does not take an argument/.test(message)) return `${option} takes no value`;
  if (/argument missing|argument is ambiguous/.test(message)) return `${option}: write its value`;
  // parseArgs explains itself over several sentences; the first names what it stumbled over.
  return message.split(/\.\s|\n/)[0] ?? message;
}

type Options = ReturnType<typeof readOptions>;

function readPlan(values: Options): PlanSettings {
  if (values.json && values.csv) throw new CommandError("Choose --json or --csv, not both.");
  const time = (option: "mean" | "length" | "lead-in" | "end-margin", fallback: number) => {
    const text = values[option];
    return text === undefined ? fallback : parseDuration(option, text);
  };
  const meanSeconds = time("mean", firstPlan.meanSeconds);
  const plan: PlanSettings = {
    ...firstPlan,
    law: chosen("law", values.law, lawNames, firstPlan.law),
    meanSeconds,
    // Only an unasked-for gap gives way to a short mean; a chosen one is checked like the rest.
    shortestGapSeconds:
      values.shortest === undefined
        ? Math.min(firstPlan.shortestGapSeconds, Math.floor(meanSeconds * (1000 / 6)) / 1000)
        : parseDuration("shortest", values.shortest),
    longestGapSeconds:
      values.longest === undefined ? null : parseDuration("longest", values.longest),
    lengthSeconds: time("length", firstPlan.lengthSeconds),
    leadInSeconds: time("lead-in", 0),
    endMarginSeconds: time("end-margin", 0),
    fewestCues: number("floor", values.floor, wholeNumber, firstPlan.fewestCues),
    chime: chosen("chime", values.chime, chimeNames, firstPlan.chime),
    volume: number("volume", values.volume, fraction, firstPlan.volume),
  };
  const [problem] = checkPlan(plan);
  if (problem !== undefined) throw new CommandError(planProblemLine(problem, plan));
  return plan;
}

function chosen<Name extends LawName | ChimeName>(
  option: string,
  text: string | undefined,
  names: readonly Name[],
  fallback: Name,
): Name {
  if (text === undefined) return fallback;
  const name = names.find((candidate) => candidate === text);
  if (name !== undefined) return name;
  throw new CommandError(`--${option}: "${text}" is not one of ${names.join(", ")}.`);
}

interface NumberForm {
  readonly pattern: RegExp;
  readonly words: string;
}
const wholeNumber: NumberForm = { pattern: /^\d+$/, words: "a whole number from 0 up, such as 5" };
const fraction: NumberForm = { pattern: /^\d*\.?\d+$/, words: "a number from 0 to 1, such as 0.5" };

function number(
  option: string,
  text: string | undefined,
  form: NumberForm,
  fallback: number,
): number {
  if (text === undefined) return fallback;
  if (form.pattern.test(text)) return Number(text);
  throw new CommandError(`--${option}: "${text}" is not ${form.words}.`);
}

/** Letters of a seed or an id, as many as the app takes. */
const longestWord = 80;

/** A seed or an id, without spaces around it, as the app reads them. */
function word(option: string, text: string | undefined): string | undefined {
  const trimmed = text?.trim();
  if (trimmed === "") throw new CommandError(`--${option}: write at least one letter or digit.`);
  if (trimmed !== undefined && trimmed.length > longestWord) {
    throw new CommandError(`--${option}: write at most ${longestWord} letters.`);
  }
  return trimmed;
}

/** What the cues are like; times in seconds, null where there are too few cues to say. */
interface Summary {
  readonly count: number;
  /** Cues of a session of this plan on average, schedules with fewer than the floor put aside. */
  readonly expectedCount: number;
  /** A session of this plan has more cues than this at most once in a hundred. */
  readonly mostLikelyCount: number;
  readonly shortestGapSeconds: number | null;
  readonly meanGapSeconds: number | null;
  readonly longestGapSeconds: number | null;
  readonly guess: Pick<
    Guess,
    "verdict" | "beatsChanceBy" | "floorGivesAway" | "blockGivesAway" | "method"
  >;
}

function summarize(plan: PlanSettings, times: readonly number[]): Summary {
  const gaps = times.slice(1).map((time, index) => rounded(time - (times[index] ?? 0)));
  const some = gaps.length > 0;
  const { verdict, beatsChanceBy, floorGivesAway, blockGivesAway, method } = guess(plan);
  return {
    count: times.length,
    expectedCount: rounded(expectedCues(plan)),
    mostLikelyCount: mostLikelyCues(plan),
    shortestGapSeconds: some ? Math.min(...gaps) : null,
    meanGapSeconds: some ? rounded(gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length) : null,
    longestGapSeconds: some ? Math.max(...gaps) : null,
    guess: {
      verdict,
      beatsChanceBy: rounded(beatsChanceBy),
      floorGivesAway: rounded(floorGivesAway),
      blockGivesAway: rounded(blockGivesAway),
      method,
    },
  };
}

/** To three decimals: milliseconds, thousandths of a share. */
function rounded(value: number): number {
  return Math.round(value * 1000) / 1000;
}

interface Result {
  readonly seed: string;
  readonly plan: PlanSettings;
  readonly cues: readonly number[];
  readonly summary: Summary;
}

function written(result: Result, streamName: string, { json, csv }: Options): string {
  if (json) return `${JSON.stringify(result, null, 2)}\n`;
  if (csv) return csvOf(result.cues);
  return pageOf(result, streamName);
}

function csvOf(times: readonly number[]): string {
  const lines = times.map((time, index) => `${index + 1},${time},${formatClock(time)}`);
  return `${["cue,seconds,clock", ...lines].join("\n")}\n`;
}

const verdictSentences: Record<GuessVerdict, string> = {
  hardToGuess: "Hard to guess",
  canBeGuessed: "Can be guessed in part",
  predictable: "PREDICTABLE",
};

function pageOf({ seed, plan, cues: times, summary }: Result, streamName: string): string {
  const { beatsChanceBy, floorGivesAway, blockGivesAway } = summary.guess;
  const gain = Math.round(100 * Math.max(beatsChanceBy, floorGivesAway, blockGivesAway));
  const lines = times.map(
    (time, index) => `${String(index + 1).padStart(4)}  ${formatClock(time).padStart(9)}`,
  );
  return `${[
    `Seed ${seed}, stream ${streamName}: ${plan.law} intervals of ${formatDuration(plan.meanSeconds)} on average, over ${formatDuration(plan.lengthSeconds)}`,
    "",
    ...lines,
    "",
    `${counted(times.length)}; about ${Number(summary.expectedCount.toFixed(1))} expected, hardly ever more than ${summary.mostLikelyCount}.`,
    ...gapLines(summary),
    `${verdictSentences[summary.guess.verdict]}: the best guess beats chance by ${gain} points.`,
  ].join("\n")}\n`;
}

function counted(count: number): string {
  return count === 1 ? "1 cue" : `${count} cues`;
}

function gapLines({ shortestGapSeconds, meanGapSeconds, longestGapSeconds }: Summary): string[] {
  if (shortestGapSeconds === null || meanGapSeconds === null || longestGapSeconds === null)
    return [];
  const [shortest, mean, longest] = [shortestGapSeconds, meanGapSeconds, longestGapSeconds].map(
    (gap) => formatDuration(Math.round(gap)),
  );
  return [`Between cues: ${shortest} to ${longest}, ${mean} on average.`];
}

async function writeRecording(
  path: string,
  plan: PlanSettings,
  times: readonly number[],
  announcements: boolean,
): Promise<void> {
  const { chime, volume, lengthSeconds } = plan;
  try {
    const load = chimeLoader(chimeFolder());
    const recording = { cues: times, lengthSeconds, chime, volume, announcements, load };
    await writeWav(path, planRecording(recording));
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    throw new CommandError(`--wav: the recording could not be written: ${reason}`, 1);
  }
}
