import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkPlan, type PlanProblem } from "../../../shared/plan/check-plan.ts";
import { type PlanSettings, planSettingsSchema } from "../../../shared/plan/plan.ts";
import { anyPlan } from "./any-plan.ts";

const odd = fc.constantFrom(Number.NaN, Number.POSITIVE_INFINITY, -1, 1e9, 2.5);

/** Plans no schema would let in: one field made odd. */
const brokenPlan: fc.Arbitrary<PlanSettings> = fc
  .tuple(
    anyPlan,
    fc.constantFrom(
      "meanSeconds",
      "shortestGapSeconds",
      "longestGapSeconds",
      "lengthSeconds",
      "leadInSeconds",
      "endMarginSeconds",
      "fewestCues",
      "volume",
    ),
    odd,
  )
  .map(([plan, field, value]) => ({ ...plan, [field]: value }));

function nearestOf(problems: readonly PlanProblem[]): PlanSettings[] {
  return problems.map(({ nearest }) => nearest);
}

describe("checking a plan", () => {
  it.each([
    ["any plan", anyPlan],
    ["a plan with a field out of bounds", brokenPlan],
  ])("offers, for %s, a nearest plan that itself passes and fits the schema", (_, plans) => {
    fc.assert(
      fc.property(plans, (plan) => {
        for (const nearest of nearestOf(checkPlan(plan))) {
          expect(checkPlan(nearest)).toEqual([]);
          expect(planSettingsSchema.safeParse(nearest).success).toBe(true);
        }
      }),
      { numRuns: 1000 },
    );
  });

  it("leaves alone what is not at fault", () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        for (const nearest of nearestOf(checkPlan(plan))) {
          expect(nearest.law).toBe(plan.law);
          expect(nearest.chime).toBe(plan.chime);
          expect(nearest.recording).toBe(plan.recording);
          expect(nearest.volume).toBe(plan.volume);
          expect(nearest.leadInSeconds).toBeLessThanOrEqual(plan.leadInSeconds);
          expect(nearest.fewestCues).toBeLessThanOrEqual(plan.fewestCues);
        }
      }),
      { numRuns: 500 },
    );
  });
});
