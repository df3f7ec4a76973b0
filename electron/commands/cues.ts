import { randomBytes } from "node:crypto";
import { parseArgs } from "node:util";
import { chimeNames, firstPlan, type PlanSettings } from "../../shared/plan/plan.ts";
import { type Guess, type GuessVerdict, guess } from "../../shared/schedule/guess.ts";
import { expectedCues } from "../../shared/schedule/kept-counts.ts";
import { mostLikelyCues } from "../../shared/schedule/most-likely-cues.ts";
import { sessionSchedule } from "../../shared/schedule/session-schedule.ts";
import { chimeFolder } from "../recording/chime-folder.ts";
import { chimeLoader } from "../recording/load-chime.ts";
import { planRecording } from "../recording/render-recording.ts";
import { writeWav } from "../recording/write-wav.ts";
import { type Command, CommandError } from "./command.ts";
import { formatClock, formatDuration } from "./duration.ts";
import {
  chosen,
  fraction,
  number,
  parseProblem,
  planHelp,
  planOptions,
  readPlanOptions,
  withNegativeValues,
} from "./plan-options.ts";

const help = `Usage: cli cues [options]

Prints the cues of one session: when each comes, counted from the start. The same plan and seed give the
same cues on every machine.

Plan
${planHelp}
  --seed TEXT         what the draw starts from (a new one, printed with the cues)
  --student ID        one student's own cues from the same seed; a sheet of cue times prints them as the
                      stream cues/ID, the group's as the stream cues

Output
  --json              {seed, plan, cues: [seconds...], summary}
  --csv               one line a cue: number, seconds, clock
  --wav FILE          also write the session as a recording, with a chime at each cue;
                      16-bit, 48 kHz, about 6 MB a minute; an existing file is replaced
  --chime NAME        chime of the recording: ${chimeNames.join(", ")} (${firstPlan.chime})
  --volume N          volume of the recording, 0 to 1 (${firstPlan.volume})
  --no-announcements  leave out the chimes at the beginning and end of the recording

  -h, --help          this text

In --json, summary.mostLikelyCount is the 99th percentile of the number of cues: a session has more at
most once in a hundred. summary.guess is what a listener who pays attention a quarter of the time, and
misjudges elapsed time by 15 % (standard deviation), gains over chance.

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
        ...planOptions,
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
    throw new CommandError(`${parseProblem(error)}. See cli cues --help.`);
  }
}

type Options = ReturnType<typeof readOptions>;

function readPlan(values: Options): PlanSettings {
  if (values.json && values.csv) throw new CommandError("Choose --json or --csv, not both.");
  const chime = chosen("chime", values.chime, chimeNames, firstPlan.chime);
  const volume = number("volume", values.volume, fraction, firstPlan.volume);
  return readPlanOptions(values, { chime, volume });
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
