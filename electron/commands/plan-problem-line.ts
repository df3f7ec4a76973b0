import type { PlanSettings } from "../../shared/plan/plan.ts";
import type { PlanProblem, PlanProblemCode } from "../../shared/schedule/check-plan.ts";
import { formatDuration } from "./duration.ts";

type Sentence = (
  value: (name: string) => number | string,
  length: (name: string) => string,
) => string;

const sentences: Record<PlanProblemCode, Sentence> = {
  outsideBounds: (value, length) => {
    const option = optionOf(String(value("field")));
    return option === "floor"
      ? `--floor ${value("value")}: write a whole number from ${value("least")} to ${value("most")}.`
      : `--${option} ${length("value")}: write a length from ${length("least")} to ${length("most")}.`;
  },
  lengthUnderOneMinute: (_, length) =>
    `--length ${length("lengthSeconds")}: a session lasts at least 1m.`,
  lengthOverThreeHours: (_, length) =>
    `--length ${length("lengthSeconds")}: a session lasts at most 3h.`,
  meanTooShort: (_, length) =>
    `--mean ${length("meanSeconds")} leaves no time to answer; the minimum is ${length("least")}.`,
  meanNotAboveShortestGap: (_, length) =>
    `--mean ${length("meanSeconds")} must be above the shortest gap, --shortest ${length("shortestGapSeconds")}.`,
  lengthShorterThanMean: (_, length) =>
    `--length ${length("lengthSeconds")} is shorter than one interval, --mean ${length("meanSeconds")}.`,
  noRoomForCues: (_, length) =>
    `--lead-in ${length("leadInSeconds")} and --end-margin ${length("endMarginSeconds")} leave less room than one interval, --mean ${length("meanSeconds")}.`,
  longestGapNotAboveMean: (_, length) =>
    `--longest ${length("longestGapSeconds")} must be above --mean ${length("meanSeconds")}.`,
  longestGapTooNearMean: (_, length) =>
    `--longest ${length("longestGapSeconds")} is too near --mean ${length("meanSeconds")}; with --shortest ${length("shortestGapSeconds")} it must be at least ${length("leastLongest")}.`,
  uniformPastLongestGap: (_, length) =>
    `--longest ${length("longestGapSeconds")}: with this mean and shortest gap, uniform intervals reach to ${length("leastLongest")}.`,
  tooManyCues: (value, length) =>
    `--mean ${length("meanSeconds")} over --length ${length("lengthSeconds")} can give more than ${value("most")} cues, the most a session can number.`,
  fewestCuesImpossible: (value) =>
    `--floor ${value("fewestCues")}: the session has no room for so many cues.`,
  fewestCuesUnlikely: (value) =>
    `--floor ${value("fewestCues")}: so many cues are too unlikely at this mean; ${value("most")} can be promised.`,
  volumeOutsideBounds: (value) => `--volume ${value("volume")}: write a number from 0 to 1.`,
  soundAtVolumeZero: () => "--volume 0: no chime could be heard.",
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

/** The option that sets a field of the plan. */
function optionOf(field: string): string {
  return typedEntries(optionOfLength).find(([name]) => name === field)?.[1] ?? "floor";
}

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
