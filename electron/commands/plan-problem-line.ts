import type { PlanProblem, PlanProblemCode } from "../../shared/plan/check-plan.ts";
import type { PlanSettings } from "../../shared/plan/plan.ts";
import { formatDuration } from "./duration.ts";

type Sentence = (
  value: (name: string) => number | string,
  length: (name: string) => string,
) => string;

const sentences: Record<PlanProblemCode, Sentence> = {
  outsideBounds: (value) =>
    `${value("field")} is ${value("value")}, but must lie between ${value("least")} and ${value("most")}.`,
  lengthUnderOneMinute: () => "The session is shorter than one minute.",
  lengthOverThreeHours: () => "The session is longer than three hours.",
  meanTooShort: (_, length) =>
    `A mean of ${length("meanSeconds")} leaves no time to answer; the least is ${length("least")}.`,
  meanNotAboveShortestGap: (_, length) =>
    `The mean (${length("meanSeconds")}) must be above the shortest gap (${length("shortestGapSeconds")}).`,
  lengthShorterThanMean: (_, length) =>
    `The session (${length("lengthSeconds")}) is shorter than one mean interval (${length("meanSeconds")}).`,
  noRoomForCues: (_, length) =>
    `Lead-in (${length("leadInSeconds")}) and end margin (${length("endMarginSeconds")}) leave less than one mean interval (${length("meanSeconds")}) for cues.`,
  longestGapNotAboveMean: (_, length) =>
    `The longest gap (${length("longestGapSeconds")}) must be above the mean (${length("meanSeconds")}).`,
  longestGapTooNearMean: (_, length) =>
    `With this mean and shortest gap the longest gap must be at least ${length("leastLongest")}.`,
  uniformPastLongestGap: (_, length) =>
    `Uniform intervals with this mean and shortest gap reach to ${length("leastLongest")}, past the longest gap (${length("longestGapSeconds")}).`,
  tooManyCues: (value, length) =>
    `A mean of ${length("meanSeconds")} over ${length("lengthSeconds")} can give more than ${value("most")} cues, the most a session can number.`,
  fewestCuesImpossible: (value) => `The session is too short for ${value("fewestCues")} cues.`,
  fewestCuesUnlikely: (value) =>
    `At least ${value("fewestCues")} cues are too unlikely at this mean; ${value("most")} can be promised.`,
  volumeOutsideBounds: () => "The volume must lie between 0 and 1.",
  soundAtVolumeZero: () => "At volume 0 no chime can be heard.",
};

/** One line saying why a plan cannot be run and which options would make it the nearest one that can. */
export function planProblemLine(problem: PlanProblem, settings: PlanSettings): string {
  const value = (name: string) => problem.values[name] ?? "";
  const length = (name: string) => formatDuration(Number(value(name)));
  const options = changedOptions(settings, problem.nearest);
  return `${sentences[problem.code](value, length)} Nearest possible: ${options}.`;
}

const optionOfLength = {
  lengthSeconds: "length",
  meanSeconds: "mean",
  shortestGapSeconds: "shortest",
  longestGapSeconds: "longest",
  leadInSeconds: "lead-in",
  endMarginSeconds: "end-margin",
} as const;

function changedOptions(settings: PlanSettings, nearest: PlanSettings): string {
  const changed = typedEntries(optionOfLength)
    .filter(([field]) => settings[field] !== nearest[field])
    .map(([field, option]) => {
      const seconds = nearest[field];
      return seconds === null ? `no --${option}` : `--${option} ${formatDuration(seconds)}`;
    });
  if (settings.fewestCues !== nearest.fewestCues) changed.push(`--floor ${nearest.fewestCues}`);
  if (settings.volume !== nearest.volume) changed.push(`--volume ${nearest.volume}`);
  if (settings.cueing !== nearest.cueing) changed.push("a volume above 0");
  return changed.join(" ");
}

function typedEntries<Key extends string, Value>(record: Record<Key, Value>): [Key, Value][] {
  // Object.entries widens keys to string; a literal record has no others.
  return Object.entries(record) as [Key, Value][];
}
