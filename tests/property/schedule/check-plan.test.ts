import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mostCues } from "../../../shared/plan/most-cues.ts";
import { firstPlan, type PlanSettings, planSettingsSchema } from "../../../shared/plan/plan.ts";
import { checkPlan, type PlanProblem } from "../../../shared/schedule/check-plan.ts";
import { chanceOfAtLeast } from "../../../shared/schedule/cue-count.ts";
import { sessionSchedule } from "../../../shared/schedule/session-schedule.ts";
import { sessionEventBodySchema } from "../../../shared/session/event.ts";
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

/** Plans around the most cues that a session can number: five to seven seconds over nearly three hours. */
const densePlan: fc.Arbitrary<PlanSettings> = fc
  .tuple(
    anyPlan,
    fc.double({ min: 5, max: 7, noNaN: true }),
    fc.double({ min: 0, max: 0.9, noNaN: true }),
    fc.integer({ min: 9_500, max: 10_800 }),
    fc.boolean(),
  )
  .map(([plan, meanSeconds, share, lengthSeconds, isCut]) => ({
    ...plan,
    meanSeconds,
    shortestGapSeconds: share * meanSeconds,
    longestGapSeconds: isCut ? 3 * meanSeconds : null,
    lengthSeconds,
    leadInSeconds: 0,
    endMarginSeconds: 0,
    fewestCues: 1,
    volume: 1,
  }));

describe("a plan of very many cues", () => {
  it("is run only when each of its cues can be numbered, and so heard, printed and marked", () => {
    const numbered = (cue: number) =>
      sessionEventBodySchema.safeParse({ kind: "announced", cue }).success;
    expect([numbered(mostCues), numbered(mostCues + 1)]).toEqual([true, false]);
    let refused = 0;
    fc.assert(
      fc.property(densePlan, fc.string(), (plan, seed) => {
        const [problem] = checkPlan(plan);
        if (problem !== undefined) refused += 1;
        const run = problem?.nearest ?? plan;
        expect(chanceOfAtLeast(run, mostCues + 1)).toBeLessThanOrEqual(0.001);
        expect(sessionSchedule(run, seed).cues.length).toBeLessThanOrEqual(mostCues);
        if (problem === undefined) return;
        // Refused only where a draw really could be too long.
        expect(problem.code).toBe("tooManyCues");
        expect(chanceOfAtLeast(plan, mostCues + 1)).toBeGreaterThan(0.001);
        expect(run.meanSeconds).toBeLessThanOrEqual(6);
      }),
      { numRuns: 300, seed: 2000 },
    );
    expect(refused).toBeGreaterThan(20);
  });

  it("puts a draw with too many cues aside whole", () => {
    // About 2,007 expected, which `checkPlan` refuses: nearly every second draw is too long.
    const plan = { ...firstPlan, meanSeconds: 5.38, shortestGapSeconds: 0, lengthSeconds: 10_800 };
    const { cues, redraws } = sessionSchedule(plan, "dense");
    expect(redraws).toBeGreaterThan(0);
    expect(cues.length).toBeLessThanOrEqual(mostCues);
  });
});
