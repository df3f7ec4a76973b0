import { describe, expect, it } from "vitest";
import { firstPlan } from "../../../../../../shared/plan/plan.ts";
import { checkPlan } from "../../../../../../shared/schedule/check-plan.ts";
import { placeOfProblem } from "../../../../../../src/screens/plan/fields/problem-places.ts";

const tooClose = { ...firstPlan, shortestGapSeconds: 500 };

describe("A problem of a plan is said", () => {
  const [problem] = checkPlan(tooClose);
  if (problem === undefined) throw new Error("This plan must be refused.");

  it("at the setting that was just changed, where somebody looks", () => {
    expect(placeOfProblem(problem, "meanSeconds")).toBe("meanSeconds");
    expect(placeOfProblem(problem, "shortestGapSeconds")).toBe("shortestGapSeconds");
  });

  it("at the one that has to give way when it is about no setting just changed", () => {
    expect(placeOfProblem(problem, null)).toBe("shortestGapSeconds");
    expect(placeOfProblem(problem, "subject")).toBe("shortestGapSeconds");
  });

  it.each([
    ["meanSeconds", { meanSeconds: 90_000 }],
    ["fewestCues", { fewestCues: Number.NaN }],
    ["longestGapSeconds", { longestGapSeconds: -1 }],
  ] as const)("at %s when that is out of bounds", (field, change) => {
    const [found] = checkPlan({ ...firstPlan, ...change });
    expect(found && placeOfProblem(found, "subject")).toBe(field);
  });
});
