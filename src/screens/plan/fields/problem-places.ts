import type { PlanSettings } from "../../../../shared/plan/plan.ts";
import type { PlanProblem, PlanProblemCode } from "../../../../shared/schedule/check-plan.ts";

export type PlanField = keyof PlanSettings;

/** The settings that each problem is about; the first is where it is said when none of them was just changed. */
const concerned: Record<Exclude<PlanProblemCode, "outsideBounds">, readonly PlanField[]> = {
  lengthUnderOneMinute: ["lengthSeconds"],
  lengthOverThreeHours: ["lengthSeconds"],
  meanTooShort: ["meanSeconds"],
  meanNotAboveShortestGap: ["shortestGapSeconds", "meanSeconds"],
  lengthShorterThanMean: ["lengthSeconds", "meanSeconds"],
  noRoomForCues: ["leadInSeconds", "endMarginSeconds", "lengthSeconds", "meanSeconds"],
  longestGapNotAboveMean: ["longestGapSeconds", "meanSeconds"],
  longestGapTooNearMean: ["longestGapSeconds", "meanSeconds", "shortestGapSeconds"],
  uniformPastLongestGap: ["longestGapSeconds", "meanSeconds", "shortestGapSeconds", "law"],
  tooManyCues: ["meanSeconds", "lengthSeconds"],
  fewestCuesImpossible: ["fewestCues", "lengthSeconds", "meanSeconds"],
  fewestCuesUnlikely: ["fewestCues", "lengthSeconds", "meanSeconds"],
  volumeOutsideBounds: ["volume"],
  soundAtVolumeZero: ["volume", "cueing"],
};

/**
 * The setting at which a problem is said: the one just changed, if the problem is about it, since there
 * somebody looks; otherwise the one that most likely has to give way.
 *
 * Example: placeOfProblem(checkPlan({ ...firstPlan, shortestGapSeconds: 500 })[0], "meanSeconds") // "meanSeconds"
 */
export function placeOfProblem(problem: PlanProblem, changed: PlanField | null): PlanField {
  const fields = fieldsOf(problem);
  const [first = "lengthSeconds"] = fields;
  return changed !== null && fields.includes(changed) ? changed : first;
}

function fieldsOf({ code, values }: PlanProblem): readonly PlanField[] {
  if (code !== "outsideBounds") return concerned[code];
  const field = boundedFields.find((each) => each === values.field);
  return field === undefined ? [] : [field];
}

const boundedFields = [
  "meanSeconds",
  "shortestGapSeconds",
  "longestGapSeconds",
  "lengthSeconds",
  "leadInSeconds",
  "endMarginSeconds",
  "fewestCues",
] as const satisfies readonly PlanField[];
