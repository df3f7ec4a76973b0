import { describe, expect, it } from "vitest";
import { mostCues } from "../../../../shared/plan/most-cues.ts";
import { firstPlan, type PlanSettings } from "../../../../shared/plan/plan.ts";
import { greatestCountWithChance } from "../../../../shared/schedule/cue-count.ts";
import { mostLikelyCues } from "../../../../shared/schedule/most-likely-cues.ts";
import {
  changesTold,
  renewalVariance,
  sessionPrecision,
  sessionReach,
  sessionsToTellChange,
} from "../../../../shared/schedule/precision.ts";

describe("room for cues on a card", () => {
  // Poisson with mean 20: P(N <= 30) = .986525 (computed with scipy) is not yet 99 %, 31 is.
  it("is the 99 % point of the number of cues", () => {
    const plan = { ...firstPlan, meanSeconds: 60, shortestGapSeconds: 0 };
    expect(mostLikelyCues(plan)).toBe(31);
    expect(mostLikelyCues(plan, 0.98)).toBe(30);
  });

  it("is exactly the number of cues of a fixed plan, at any length of the day", () => {
    expect(mostLikelyCues({ ...firstPlan, law: "fixed" })).toBe(10);
    expect(mostLikelyCues({ ...firstPlan, law: "fixed", lengthSeconds: 1199 })).toBe(9);
  });

  // Poisson with mean 20, given at least 20: P(N > 31) = .0153, P(N > 32) = .0089 (computed with scipy).
  it("allows for schedules with few cues being put aside", () => {
    const plan = { ...firstPlan, meanSeconds: 60, shortestGapSeconds: 0, fewestCues: 20 };
    expect(mostLikelyCues(plan)).toBe(32);
  });

  // Asked for certainty, no number would ever be enough.
  it("refuses a confidence or a chance that no number of cues could meet", () => {
    for (const confidence of [1, 1.5, -0.1, Number.NaN]) {
      expect(() => mostLikelyCues(firstPlan, confidence)).toThrow(RangeError);
    }
    for (const chance of [0, -0.5, Number.NaN]) {
      expect(() => greatestCountWithChance(firstPlan, chance)).toThrow(RangeError);
    }
    // Finer than a sum of thousands of terms can tell: still an end, and never more than a session can have.
    const dense = { ...firstPlan, meanSeconds: 6, shortestGapSeconds: 0, lengthSeconds: 10_800 };
    expect(greatestCountWithChance(dense, 1e-300)).toBe(mostCues);
    expect(mostLikelyCues(dense, 1 - 1e-15)).toBeLessThanOrEqual(mostCues);
  });

  it("shrinks with lead-in and end margin", () => {
    const less = { ...firstPlan, leadInSeconds: 300, endMarginSeconds: 300 };
    expect(mostLikelyCues(less)).toBeLessThan(mostLikelyCues(firstPlan));
    expect(greatestCountWithChance({ ...firstPlan, leadInSeconds: 1200 }, 0.5)).toBe(0);
  });
});

describe("the precision planner", () => {
  const bouts = { onSeconds: 60, offSeconds: 30 };
  const settings = { plan: firstPlan, bouts };

  it("expects the plan's number of cues and the student's rate", () => {
    const precision = sessionPrecision(settings);
    // The renewal function of these waits at 1,200 s is 9.8474, computed by convolving them on a grid of 0.05 s
    // with NumPy 2.4.6; its limit, 10 + (100^2 / 120^2 - 1) / 2, is 9.8472; the floor hardly ever matters.
    expect(precision.expectedCues).toBeCloseTo(10 + (100 ** 2 / 120 ** 2 - 1) / 2, 2);
    expect(precision.trueRate).toBeCloseTo(2 / 3, 12);
    expect(precision.lower).toBeLessThan(precision.trueRate);
    expect(precision.upper).toBe(Math.min(1, precision.upper));
  });

  it("with behaviour that changes at once comes down to the binomial", () => {
    // Fixed intervals: ten cues every time.
    const restless = sessionPrecision({
      plan: { ...firstPlan, law: "fixed" },
      bouts: { onSeconds: 0.02, offSeconds: 0.01 },
    });
    expect(restless.standardDeviation).toBeCloseTo(Math.sqrt(2 / 9 / 10), 4);
    expect(renewalVariance(0.5, 0, 10)).toBeCloseTo(0.025, 12);
  });

  // Textbook: (1.96 + 0.8416)^2 = 7.849; for independent marks at .5 and .6, ten a session, 10 points:
  // 7.849 (.25 + .24) / 10 / .01 = 38.46 sessions, times 1.5 - .5 / 60 for neighbours correlated at .2
  // (meanInflation), and one or two more for Student's t.
  it("with independent marks and days alike is the textbook's sample size, neighbours allowed for", () => {
    const plan: PlanSettings = { ...firstPlan, law: "fixed" };
    const restless = { onSeconds: 0.001, offSeconds: 0.001 };
    expect(sessionsToTellChange({ plan, bouts: restless, daySpread: 0 }, 0.1)).toBeGreaterThan(57);
    expect(sessionsToTellChange({ plan, bouts: restless, daySpread: 0 }, 0.1)).toBeLessThan(61);
  });

  it("is never under four, at which the rule can first say clearly", () => {
    const dense = { ...firstPlan, meanSeconds: 15, shortestGapSeconds: 3, lengthSeconds: 3600 };
    const restless = { onSeconds: 5, offSeconds: 5 };
    expect(sessionsToTellChange({ plan: dense, bouts: restless, daySpread: 0 }, 0.49)).toBe(4);
  });

  it("needs more sessions where days differ more", () => {
    const needed = [0, 0.05, 0.1, 0.15].map((daySpread) =>
      sessionsToTellChange({ ...settings, daySpread }, 0.1),
    );
    expect(needed).toEqual([...new Set(needed)].sort((one, other) => one - other));
    expect(sessionsToTellChange(settings, 0.1)).toBe(needed[2]);
    expect(() => sessionsToTellChange({ ...settings, daySpread: -0.1 }, 0.1)).toThrow(
      "0 or more; got -0.1",
    );
  });

  it("says how close one session comes to its own rate", () => {
    // Wilson's 95 % interval of 7 of 10, 14 of 20 and 28 of 40: half widths by R 4.2.2's prop.test.
    expect(sessionReach(10)).toBeCloseTo(0.24772, 5);
    expect(sessionReach(20)).toBeCloseTo(0.18675, 5);
    expect(sessionReach(40)).toBeCloseTo(0.13678, 5);
  });

  it("needs more sessions for smaller changes and longer bouts, fewer for more cues", () => {
    const told = [0.05, 0.1, 0.2, 0.3].map((change) => sessionsToTellChange(settings, change));
    expect(told).toEqual([...told].sort((one, other) => other - one));
    const steady = { onSeconds: 600, offSeconds: 300 };
    expect(sessionsToTellChange({ plan: firstPlan, bouts: steady }, 0.1)).toBeGreaterThan(
      sessionsToTellChange(settings, 0.1),
    );
    const dense = { ...firstPlan, meanSeconds: 60 };
    expect(sessionsToTellChange({ plan: dense, bouts }, 0.1)).toBeLessThan(
      sessionsToTellChange(settings, 0.1),
    );
  });

  it("draws a chart that agrees with the number of sessions", () => {
    for (const { sessions, change } of changesTold(settings, 40).slice(1)) {
      expect(sessionsToTellChange(settings, change + 1e-9)).toBeLessThanOrEqual(sessions);
      expect(sessionsToTellChange(settings, change - 1e-4)).toBeGreaterThan(sessions);
    }
  });

  it("refuses bouts and changes that cannot be", () => {
    const still = { plan: firstPlan, bouts: { onSeconds: 0, offSeconds: 30 } };
    expect(() => sessionPrecision(still)).toThrow(RangeError);
    expect(() => sessionsToTellChange(settings, 0)).toThrow(RangeError);
    expect(() => sessionsToTellChange(settings, 0.9)).toThrow(RangeError);
  });
});
