import { describe, expect, it } from "vitest";
import { firstPlan, type PlanSettings } from "../../../../shared/plan/plan.ts";
import { bestCatch } from "../../../../shared/schedule/best-catch.ts";
import { guess } from "../../../../shared/schedule/guess.ts";

const plan = (change: Partial<PlanSettings>): PlanSettings => ({ ...firstPlan, ...change });

describe("the best quarter of the time", () => {
  it("catches a quarter when all states are alike", () => {
    const states = [1, 2, 3].map((size) => ({ cues: size, time: 10 * size }));
    expect(bestCatch(states, 0.25)).toBeCloseTo(0.25, 12);
  });

  it("takes the states with most cues per second first, the last one in part", () => {
    const states = [
      { cues: 1, time: 70 },
      { cues: 6, time: 20 },
      { cues: 3, time: 10 },
    ];
    // Equal rates of .3 fill all 25 of 100: 7.5 of 10 cues.
    expect(bestCatch(states, 0.25)).toBeCloseTo(0.75, 12);
  });

  it("catches nothing where no cue comes", () => {
    expect(bestCatch([{ cues: 0, time: 5 }], 0.25)).toBe(0);
  });
});

describe("what a listener could guess", () => {
  it("is nothing under exponential intervals without a shortest gap", () => {
    const { beatsChanceBy, hazard, verdict, method } = guess(plan({ shortestGapSeconds: 0 }));
    expect(beatsChanceBy).toBeLessThan(0.001);
    expect(verdict).toBe("hardToGuess");
    expect(method).toBe("exact");
    // Constant hazard: one cue in two minutes, at every age.
    for (const point of hazard) expect(point.cuesPerMinute).toBeCloseTo(0.5, 4);
  });

  it("is what the shortest gap gives away under the first plan: a quarter of 20 s in 100 s", () => {
    // On the alert only after the gap: 0.25 m / (m - g) of the cues, so 0.25 g / (m - g) over chance.
    expect(guess(firstPlan).beatsChanceBy).toBeCloseTo((0.25 * 20) / 100, 3);
    expect(guess(firstPlan).verdict).toBe("hardToGuess");
  });

  it("is a quarter under wide uniform intervals, less what a listener without a clock misses", () => {
    // With a clock the best quarter of the time lies past 2m (1 - sqrt(0.25)): half of the cues.
    const { beatsChanceBy, verdict } = guess(plan({ law: "uniform", shortestGapSeconds: 0 }));
    expect(beatsChanceBy).toBeLessThan(0.25);
    expect(beatsChanceBy).toBeGreaterThan(0.23);
    expect(verdict).toBe("canBeGuessed");
  });

  it("is nearly everything under fixed and narrow uniform intervals, and called predictable", () => {
    const fixed = guess(plan({ law: "fixed" }));
    expect(fixed.caughtShare).toBeGreaterThan(0.95);
    expect(fixed.verdict).toBe("predictable");
    const narrow = guess(plan({ law: "uniform", shortestGapSeconds: 100 }));
    expect(narrow.verdict).toBe("predictable");
  });

  it("grows as uniform intervals get narrower and as a longest gap comes nearer", () => {
    const gains = [0, 20, 40, 60, 80, 100].map(
      (shortestGapSeconds) => guess(plan({ law: "uniform", shortestGapSeconds })).beatsChanceBy,
    );
    expect(gains).toEqual([...gains].sort((one, other) => one - other));
    const cut = [null, 600, 400, 300, 240].map(
      (longestGapSeconds) => guess(plan({ longestGapSeconds })).beatsChanceBy,
    );
    expect(cut).toEqual([...cut].sort((one, other) => one - other));
  });

  it("comes out alike from simulation and from the law where a floor hardly bites", () => {
    const exact = guess(plan({ fewestCues: 3 }));
    const simulated = guess(plan({ fewestCues: 4 }));
    expect(exact.method).toBe("exact");
    expect(simulated.method).toBe("simulated");
    expect(Math.abs(simulated.beatsChanceBy - exact.beatsChanceBy)).toBeLessThan(0.02);
    for (const [index, point] of exact.hazard.slice(0, 20).entries()) {
      expect(simulated.hazard[index]?.cuesPerMinute).toBeCloseTo(point.cuesPerMinute, 1);
    }
  });

  it("shows a climbing hazard under uniform and a level one under exponential intervals", () => {
    const rates = guess(plan({ law: "uniform" })).hazard.map((point) => point.cuesPerMinute);
    expect(rates).toEqual([...rates].sort((one, other) => one - other));
    const level = guess(firstPlan).hazard.filter((point) => point.fromSeconds >= 24);
    for (const point of level) expect(point.cuesPerMinute).toBeCloseTo(0.6, 4);
  });

  it("always says the same of the same plan", () => {
    expect(guess(plan({ fewestCues: 8 }))).toEqual(guess(plan({ fewestCues: 8 })));
  });
});
