import { firstPlan, lawNames, type PlanSettings } from "../../shared/plan/plan.ts";
import { checkPlan } from "../../shared/schedule/check-plan.ts";
import { CommandError } from "./command.ts";
import { formatDuration, parseDuration } from "./duration.ts";
import { planProblemLine } from "./plan-problem-line.ts";

// What a command that works on a plan is told of it.

const text = { type: "string" } as const;

/** The options of a plan, for parseArgs. */
export const planOptions = {
  law: text,
  mean: text,
  length: text,
  shortest: text,
  longest: text,
  "lead-in": text,
  "end-margin": text,
  floor: text,
} as const;

/** Their lines of the help. */
export const planHelp = `  --law NAME          exponential (default), uniform, balanced, or fixed (predictable)
  --mean TIME         mean interval between cues (${formatDuration(firstPlan.meanSeconds)})
  --length TIME       length of the session (${formatDuration(firstPlan.lengthSeconds)})
  --shortest TIME     no two cues are closer than this (${formatDuration(firstPlan.shortestGapSeconds)}, or less for a short mean)
  --longest TIME      no two cues are farther apart than this (no limit)
  --lead-in TIME      no cue in this time at the start (0s)
  --end-margin TIME   no cue in this time at the end (0s)
  --floor N           draw again until there are at least N cues (${firstPlan.fewestCues})`;

type Written = Readonly<Partial<Record<keyof typeof planOptions, string>>>;

/**
 * The plan that the options describe.
 *
 * @throws CommandError when a value makes no sense, or the plan cannot be run.
 */
export function readPlanOptions(
  values: Written,
  others: Partial<Pick<PlanSettings, "chime" | "volume">> = {},
): PlanSettings {
  const time = (option: "mean" | "length" | "lead-in" | "end-margin", fallback: number) => {
    const written = values[option];
    return written === undefined ? fallback : parseDuration(option, written);
  };
  const meanSeconds = time("mean", firstPlan.meanSeconds);
  const plan: PlanSettings = {
    ...firstPlan,
    ...others,
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
  };
  const [problem] = checkPlan(plan);
  if (problem !== undefined) throw new CommandError(planProblemLine(problem, plan));
  return plan;
}

/**
 * One of some names, or the fallback.
 *
 * @throws CommandError that lists them.
 */
export function chosen<Name extends string>(
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

/** How a number is written, and what to say when it is not. */
export interface NumberForm {
  readonly pattern: RegExp;
  readonly words: string;
}
export const wholeNumber: NumberForm = {
  pattern: /^\d+$/,
  words: "a whole number from 0 up, such as 5",
};
export const fraction: NumberForm = {
  pattern: /^\d*\.?\d+$/,
  words: "a number from 0 to 1, such as 0.5",
};

/**
 * A number as written, or the fallback.
 *
 * @throws CommandError that names the option.
 */
export function number(
  option: string,
  text: string | undefined,
  form: NumberForm,
  fallback: number,
): number {
  if (text === undefined) return fallback;
  if (form.pattern.test(text)) return Number(text);
  throw new CommandError(`--${option}: "${text}" is not ${form.words}.`);
}

/**
 * `--mean -5` as `--mean=-5`: parseArgs takes what begins with a dash for an option, and would say that no
 * value was written.
 */
export function withNegativeValues(args: readonly string[]): string[] {
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
export function parseProblem(error: unknown): string {
  const message = String(error instanceof Error ? error.message : error);
  const option = /'(?:-\w, )?(--[\w-]+)/.exec(message)?.[1] ?? "";
  if (/does not take an argument/.test(message)) return `${option} takes no value`;
  if (/argument missing|argument is ambiguous/.test(message)) return `${option}: write its value`;
  // parseArgs explains itself over several sentences; the first names what it stumbled over.
  return message.split(/\.\s|\n/)[0] ?? message;
}
