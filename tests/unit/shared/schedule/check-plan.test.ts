import { describe, expect, it } from "vitest";
import { firstPlan, type PlanSettings } from "../../../../shared/plan/plan.ts";
import {
  checkPlan,
  type PlanProblemCode,
  planProblemCodes,
} from "../../../../shared/schedule/check-plan.ts";

interface Case {
  readonly code: PlanProblemCode;
  readonly change: Partial<PlanSettings>;
  /** What the nearest plan differs in. */
  readonly repaired: Partial<PlanSettings>;
}

const cases: Case[] = [
  { code: "outsideBounds", change: { meanSeconds: Number.NaN }, repaired: { meanSeconds: 120 } },
  { code: "outsideBounds", change: { leadInSeconds: -5 }, repaired: { leadInSeconds: 0 } },
  { code: "outsideBounds", change: { fewestCues: 2.5 }, repaired: { fewestCues: 2 } },
  {
    code: "lengthUnderOneMinute",
    change: { lengthSeconds: 45, meanSeconds: 30 },
    repaired: { lengthSeconds: 60 },
  },
  {
    code: "lengthOverThreeHours",
    change: { lengthSeconds: 4 * 3600 },
    repaired: { lengthSeconds: 3 * 3600 },
  },
  {
    code: "meanTooShort",
    change: { meanSeconds: 3, shortestGapSeconds: 1 },
    repaired: { meanSeconds: 5 },
  },
  {
    code: "meanNotAboveShortestGap",
    change: { meanSeconds: 60, shortestGapSeconds: 60 },
    repaired: { shortestGapSeconds: 30 },
  },
  {
    code: "lengthShorterThanMean",
    change: { lengthSeconds: 600, meanSeconds: 900 },
    repaired: { meanSeconds: 600 },
  },
  {
    code: "noRoomForCues",
    change: { leadInSeconds: 800, endMarginSeconds: 400 },
    repaired: { leadInSeconds: 720, endMarginSeconds: 360 },
  },
  {
    code: "longestGapNotAboveMean",
    change: { longestGapSeconds: 120 },
    repaired: { longestGapSeconds: 220 },
  },
  {
    code: "longestGapNotAboveMean",
    change: { longestGapSeconds: 100, law: "fixed" },
    repaired: { longestGapSeconds: 121 },
  },
  {
    code: "longestGapTooNearMean",
    change: { longestGapSeconds: 219 },
    repaired: { longestGapSeconds: 220 },
  },
  {
    code: "longestGapTooNearMean",
    change: { longestGapSeconds: 219, law: "balanced" },
    repaired: { longestGapSeconds: 220 },
  },
  {
    code: "uniformPastLongestGap",
    change: { longestGapSeconds: 219, law: "uniform" },
    repaired: { longestGapSeconds: 220 },
  },
  {
    code: "tooManyCues",
    change: { lengthSeconds: 3 * 3600, meanSeconds: 5, shortestGapSeconds: 1 },
    repaired: { meanSeconds: 6 },
  },
  {
    code: "tooManyCues",
    change: {
      lengthSeconds: 3 * 3600,
      meanSeconds: 5,
      shortestGapSeconds: 1,
      longestGapSeconds: 9,
      law: "uniform",
    },
    repaired: { meanSeconds: 6, longestGapSeconds: 11 },
  },
  { code: "fewestCuesImpossible", change: { fewestCues: 60 }, repaired: { fewestCues: 10 } },
  { code: "fewestCuesUnlikely", change: { fewestCues: 14 }, repaired: { fewestCues: 10 } },
  { code: "volumeOutsideBounds", change: { volume: 1.5 }, repaired: { volume: 1 } },
  { code: "soundAtVolumeZero", change: { volume: 0 }, repaired: { cueing: "silent" } },
];

describe("checking a plan", () => {
  it("finds nothing wrong with the first plan", () => {
    expect(checkPlan(firstPlan)).toEqual([]);
  });

  it.each(cases)("finds $code and offers the nearest plan", ({ code, change, repaired }) => {
    const settings = { ...firstPlan, ...change };
    const problems = checkPlan(settings);
    expect(problems.map((problem) => problem.code)).toEqual([code]);
    expect(problems[0]?.nearest).toEqual({ ...settings, ...repaired });
    expect(checkPlan({ ...settings, ...repaired })).toEqual([]);
  });

  it("has a case above for every problem", () => {
    expect(new Set(cases.map(({ code }) => code))).toEqual(new Set(planProblemCodes));
  });

  it("names every problem of a plan and fixes them together", () => {
    const settings = { ...firstPlan, lengthSeconds: 30, volume: 0, longestGapSeconds: 50 };
    const problems = checkPlan(settings);
    expect(problems.map(({ code }) => code)).toEqual([
      "lengthUnderOneMinute",
      "lengthShorterThanMean",
      "longestGapNotAboveMean",
      "soundAtVolumeZero",
    ]);
    for (const { nearest } of problems) {
      expect(nearest).toEqual({
        ...settings,
        lengthSeconds: 60,
        meanSeconds: 60,
        longestGapSeconds: 100,
        cueing: "silent",
      });
    }
  });

  it("lets in a silent plan at volume 0, and a floor of one at a single mean", () => {
    expect(checkPlan({ ...firstPlan, volume: 0, cueing: "silent" })).toEqual([]);
    for (const law of ["exponential", "uniform", "balanced", "fixed"] as const) {
      expect(checkPlan({ ...firstPlan, law, meanSeconds: 1200 })).toEqual([]);
    }
  });

  it("gives a message the numbers it needs", () => {
    const [problem] = checkPlan({ ...firstPlan, fewestCues: 14 });
    expect(problem?.values).toMatchObject({ fewestCues: 14, most: 10 });
    expect(problem?.values.chance).toBeLessThan(0.2);
  });
});
