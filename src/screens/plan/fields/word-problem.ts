import type { PlanSettings } from "../../../../shared/plan/plan.ts";
import type { PlanProblem } from "../../../../shared/schedule/check-plan.ts";
import type { Say } from "../../../text/text.tsx";
import { wordSeconds } from "../../../words/plan-summary.ts";

const lengthFields = [
  "lengthSeconds",
  "meanSeconds",
  "shortestGapSeconds",
  "longestGapSeconds",
  "leadInSeconds",
  "endMarginSeconds",
] as const;
const numberFields = [...lengthFields, "fewestCues", "volume"] as const;

/** Why a plan cannot be run, in plain words. */
export function wordPlanProblem(say: Say, problem: PlanProblem): string {
  const isLength = (name: string) =>
    /Seconds$|^leastLongest$/.test(name) ||
    (problem.code === "outsideBounds" && problem.values.field !== "fewestCues");
  const values = Object.entries(problem.values).map(([name, value]) => [
    name,
    typeof value === "number" && isLength(name) ? wordLength(say, value) : value,
  ]);
  return say(`planProblem.${problem.code}`, Object.fromEntries(values));
}

/** What the nearest possible plan changes, one phrase for each setting: "Longest gap: 4 minutes". */
export function wordChanges(say: Say, from: PlanSettings, to: PlanSettings): string[] {
  const numbers = numberFields
    .filter((field) => !Object.is(from[field], to[field]))
    .map((field) => {
      const value = to[field];
      if (value === null) return say("plan.changeNoLongest");
      return say("plan.change", { field, value: wordNumber(say, field, value) });
    });
  const cueing =
    from.cueing === to.cueing
      ? []
      : [say("plan.change", { field: "cueing", value: say(`plan.cueing.${to.cueing}`) })];
  return [...numbers, ...cueing];
}

function wordNumber(say: Say, field: (typeof numberFields)[number], value: number): string {
  if (field === "fewestCues") return String(value);
  return field === "volume" ? `${Math.round(100 * value)} %` : wordLength(say, value);
}

/** Half a day and more is not told in minutes. */
function wordLength(say: Say, seconds: number): string {
  return seconds >= 7200 && seconds % 1800 === 0
    ? say("plan.hours", { count: seconds / 3600 })
    : wordSeconds(say, seconds);
}
