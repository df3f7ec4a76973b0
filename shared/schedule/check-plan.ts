import { mostCues } from "../plan/most-cues.ts";
import { firstPlan, type PlanSettings } from "../plan/plan.ts";
import {
  type CountSettings,
  chanceOfAtLeast,
  greatestCountWithChance,
  roomForCues,
} from "./cue-count.ts";

/** Shortest and longest session, in seconds: one minute and three hours. */
const sessionLengthBounds = { least: 60, most: 10_800 } as const;

/** A cue must be heard, thought about and answered before the next can be expected. */
const leastMeanSeconds = 5;

/**
 * A fewest-cues floor is refused when a free draw meets it less often than this. Below, most schedules
 * would be put aside and the floor, not chance, would decide when cues come. One half, less the accuracy
 * of `chanceOfAtLeast`: with as many intervals as fill the room, a uniform plan has exactly one half. Our
 * own choice, no source.
 */
const leastFloorChance = 0.499;

/** A plan is refused when more than `mostCues` cues come more often than this; such a draw is put aside. */
const mostOverflowChance = 0.001;

export const planProblemCodes = [
  "outsideBounds",
  "lengthUnderOneMinute",
  "lengthOverThreeHours",
  "meanTooShort",
  "meanNotAboveShortestGap",
  "lengthShorterThanMean",
  "noRoomForCues",
  "longestGapNotAboveMean",
  "longestGapTooNearMean",
  "uniformPastLongestGap",
  "tooManyCues",
  "fewestCuesImpossible",
  "fewestCuesUnlikely",
  "volumeOutsideBounds",
  "soundAtVolumeZero",
] as const;
export type PlanProblemCode = (typeof planProblemCodes)[number];

/** One reason why a plan cannot be run. Words for it live in the message catalogues. */
export interface PlanProblem {
  readonly code: PlanProblemCode;
  /** The numbers a message needs: lengths in seconds, counts, chances 0 to 1; `field` is a setting's name. */
  readonly values: Readonly<Record<string, number | string>>;
  /** The nearest plan that can be run: every problem of this plan repaired, the rest untouched. */
  readonly nearest: PlanSettings;
}

type Finding = Omit<PlanProblem, "nearest">;

/**
 * Why this plan cannot be run; an empty list when it can.
 *
 * All problems carry the same `nearest` plan, which itself passes. Repairing keeps what a timetable or a
 * person decided before what follows from it: session length first, then mean, then gaps, margins and
 * fewest cues.
 *
 * Example: checkPlan(firstPlan) // []
 */
export function checkPlan(settings: PlanSettings): PlanProblem[] {
  const bounds = outsideBounds(settings);
  // With a field out of bounds the other rules would only repeat the complaint.
  const findings = bounds.length > 0 ? bounds : findingsWithin(settings);
  if (findings.length === 0) return [];
  const nearest = nearestPlan(settings);
  return findings.map((finding) => ({ ...finding, nearest }));
}

const lengthFields = [
  "meanSeconds",
  "shortestGapSeconds",
  "longestGapSeconds",
  "lengthSeconds",
  "leadInSeconds",
  "endMarginSeconds",
] as const;
const mostSeconds = 86_400;
const mostFewestCues = 500;

function usableLength(seconds: number | null): boolean {
  return seconds === null || (seconds >= 0 && seconds <= mostSeconds);
}

function usableFloor(count: number): boolean {
  return Number.isInteger(count) && count >= 0 && count <= mostFewestCues;
}

function usableVolume(volume: number): boolean {
  return volume >= 0 && volume <= 1;
}

function outsideBounds(settings: PlanSettings): Finding[] {
  const findings: Finding[] = lengthFields
    .filter((field) => !usableLength(settings[field]))
    .map((field) => ({
      code: "outsideBounds",
      values: { field, value: settings[field] ?? 0, least: 0, most: mostSeconds },
    }));
  if (!usableFloor(settings.fewestCues)) {
    findings.push({
      code: "outsideBounds",
      values: { field: "fewestCues", value: settings.fewestCues, least: 0, most: mostFewestCues },
    });
  }
  if (!usableVolume(settings.volume)) {
    findings.push({ code: "volumeOutsideBounds", values: { volume: settings.volume } });
  }
  return findings;
}

function findingsWithin(settings: PlanSettings): Finding[] {
  const findings = [
    ...lengthFindings(settings),
    ...meanFindings(settings),
    ...longestGapFindings(settings),
    ...soundFindings(settings),
  ];
  // The number of cues means something only for a plan that is sound otherwise.
  return findings.length > 0
    ? findings
    : [...overflowFindings(settings), ...floorFindings(settings)];
}

function lengthFindings({ lengthSeconds }: PlanSettings): Finding[] {
  const { least, most } = sessionLengthBounds;
  if (lengthSeconds < least) return [{ code: "lengthUnderOneMinute", values: { lengthSeconds } }];
  if (lengthSeconds > most) return [{ code: "lengthOverThreeHours", values: { lengthSeconds } }];
  return [];
}

function meanFindings(settings: PlanSettings): Finding[] {
  const { meanSeconds, shortestGapSeconds, lengthSeconds, leadInSeconds, endMarginSeconds } =
    settings;
  const findings: Finding[] = [];
  if (meanSeconds < leastMeanSeconds) {
    findings.push({ code: "meanTooShort", values: { meanSeconds, least: leastMeanSeconds } });
  }
  if (meanSeconds <= shortestGapSeconds) {
    findings.push({
      code: "meanNotAboveShortestGap",
      values: { meanSeconds, shortestGapSeconds },
    });
  }
  const roomSeconds = roomForCues(settings);
  if (lengthSeconds < meanSeconds) {
    findings.push({ code: "lengthShorterThanMean", values: { lengthSeconds, meanSeconds } });
  } else if (roomSeconds < meanSeconds) {
    findings.push({
      code: "noRoomForCues",
      values: { lengthSeconds, leadInSeconds, endMarginSeconds, roomSeconds, meanSeconds },
    });
  }
  return findings;
}

function longestGapFindings(settings: PlanSettings): Finding[] {
  const { law, meanSeconds, shortestGapSeconds, longestGapSeconds } = settings;
  if (longestGapSeconds === null) return [];
  if (longestGapSeconds <= meanSeconds) {
    return [{ code: "longestGapNotAboveMean", values: { longestGapSeconds, meanSeconds } }];
  }
  const leastLongest = leastLongestGap(settings);
  if (law === "fixed" || isInFirstHalf(meanSeconds, shortestGapSeconds, longestGapSeconds))
    return [];
  const code = law === "uniform" ? "uniformPastLongestGap" : "longestGapTooNearMean";
  const values = { longestGapSeconds, meanSeconds, shortestGapSeconds, leastLongest };
  return [{ code, values }];
}

/** Whether a mean lies in the first half of its range; in the very middle, rounding may push it past. */
function isInFirstHalf(mean: number, shortest: number, longest: number): boolean {
  return mean - shortest <= (0.5 + 5e-13) * (longest - shortest);
}

/**
 * The least longest gap a law can keep with its mean m and shortest gap g. 2m - g is where the uniform
 * law ends, and where a cut exponential has become uniform. Fixed intervals need any that is above m.
 * In whole milliseconds, rounded up, so that it can be written down and typed in again.
 */
function leastLongestGap({ law, meanSeconds, shortestGapSeconds }: CountSettings): number {
  const seconds = law === "fixed" ? meanSeconds + 1 : 2 * meanSeconds - shortestGapSeconds;
  return Math.ceil(1000 * seconds) / 1000;
}

function soundFindings({ cueing, volume }: PlanSettings): Finding[] {
  return cueing === "sound" && volume === 0 ? [{ code: "soundAtVolumeZero", values: {} }] : [];
}

function overflowFindings(settings: PlanSettings): Finding[] {
  const expected = roomForCues(settings) / settings.meanSeconds;
  // Twice as many cues as expected never come where the expected are so many.
  if (expected < mostCues / 2) return [];
  if (chanceOfAtLeast(settings, mostCues + 1) <= mostOverflowChance) return [];
  const { meanSeconds, lengthSeconds } = settings;
  return [{ code: "tooManyCues", values: { meanSeconds, lengthSeconds, most: mostCues } }];
}

function floorFindings(settings: PlanSettings): Finding[] {
  const { fewestCues } = settings;
  const chance = chanceOfAtLeast(settings, fewestCues);
  if (chance >= leastFloorChance) return [];
  const most = greatestCountWithChance(settings, leastFloorChance);
  const code = chance === 0 ? "fewestCuesImpossible" : "fewestCuesUnlikely";
  return [{ code, values: { fewestCues, chance, most } }];
}

function nearestPlan(settings: PlanSettings): PlanSettings {
  let plan = withinBounds(settings);
  const { least, most } = sessionLengthBounds;
  plan = { ...plan, lengthSeconds: Math.min(most, Math.max(least, plan.lengthSeconds)) };
  const meanSeconds = Math.min(plan.lengthSeconds, Math.max(leastMeanSeconds, plan.meanSeconds));
  plan = { ...plan, meanSeconds };
  // Only just below the mean would be allowed but as good as fixed; half leaves the cues a surprise.
  if (plan.shortestGapSeconds >= meanSeconds) {
    plan = { ...plan, shortestGapSeconds: meanSeconds / 2 };
  }
  plan = withRoom(plan);
  plan = withLongestGap(plan);
  while (overflowFindings(plan).length > 0) {
    plan = withLongestGap({ ...plan, meanSeconds: Math.floor(plan.meanSeconds) + 1 });
  }
  if (soundFindings(plan).length > 0) plan = { ...plan, cueing: "silent" };
  if (floorFindings(plan).length === 0) return plan;
  return { ...plan, fewestCues: greatestCountWithChance(plan, leastFloorChance) };
}

function withLongestGap(plan: PlanSettings): PlanSettings {
  return longestGapFindings(plan).length === 0
    ? plan
    : { ...plan, longestGapSeconds: leastLongestGap(plan) };
}

function withinBounds(settings: PlanSettings): PlanSettings {
  const plan = { ...settings };
  if (!usableLength(plan.longestGapSeconds)) plan.longestGapSeconds = null;
  for (const field of lengthFields) {
    if (field === "longestGapSeconds" || usableLength(plan[field])) continue;
    plan[field] = clampOr(firstPlan[field], plan[field], mostSeconds);
  }
  if (!usableFloor(plan.fewestCues)) {
    plan.fewestCues = Math.floor(clampOr(firstPlan.fewestCues, plan.fewestCues, mostFewestCues));
  }
  if (!usableVolume(plan.volume)) plan.volume = clampOr(firstPlan.volume, plan.volume, 1);
  return plan;
}

function clampOr(whenNotANumber: number, value: number, most: number): number {
  return Number.isNaN(value) ? whenNotANumber : Math.min(most, Math.max(0, value));
}

/** Shortens lead-in and end margin in proportion until one mean fits between them. */
function withRoom(plan: PlanSettings): PlanSettings {
  if (roomForCues(plan) >= plan.meanSeconds) return plan;
  const margins = plan.leadInSeconds + plan.endMarginSeconds;
  const sharing = (spare: number): PlanSettings => ({
    ...plan,
    leadInSeconds: Math.floor((plan.leadInSeconds * spare) / margins),
    endMarginSeconds: Math.floor((plan.endMarginSeconds * spare) / margins),
  });
  const spare = Math.max(0, Math.floor(plan.lengthSeconds - plan.meanSeconds));
  const shortened = sharing(spare);
  // Lengths that are no whole seconds may miss the mean by a rounding error; a second less fixes it.
  return roomForCues(shortened) >= plan.meanSeconds ? shortened : sharing(Math.max(0, spare - 1));
}
