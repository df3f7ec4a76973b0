import { describe, expect, it } from "vitest";
import { mostCues } from "../../../shared/plan/most-cues.ts";
import { firstPlan, type PlanSettings } from "../../../shared/plan/plan.ts";
import { cueSpan, expectedCues, keptCounts } from "../../../shared/schedule/kept-counts.ts";
import { sessionSchedule } from "../../../shared/schedule/session-schedule.ts";

function planWith(change: Partial<PlanSettings>): PlanSettings {
  return { ...firstPlan, fewestCues: 0, ...change };
}

const plans: [string, PlanSettings][] = [
  ["fixed 11m", planWith({ law: "fixed", meanSeconds: 660 })],
  ["exponential 2m", planWith({})],
  ["exponential 2m, at least 10", planWith({ fewestCues: 10 })],
  [
    "exponential 15m, no gap, at least 1",
    planWith({ meanSeconds: 900, shortestGapSeconds: 0, fewestCues: 1 }),
  ],
  ["exponential 2m, up to 5m", planWith({ longestGapSeconds: 300 })],
  ["uniform 5m", planWith({ law: "uniform", meanSeconds: 300, shortestGapSeconds: 50 })],
  ["uniform 5m, at least 4", planWith({ law: "uniform", meanSeconds: 300, fewestCues: 4 })],
  ["uniform 20s", planWith({ law: "uniform", meanSeconds: 20, shortestGapSeconds: 5 })],
  ["balanced 5m", planWith({ law: "balanced", meanSeconds: 300, shortestGapSeconds: 50 })],
  ["with lead-in and end margin", planWith({ leadInSeconds: 200, endMarginSeconds: 130 })],
];

describe("the number of cues of a session", () => {
  // 5000 schedules with fixed seeds, four standard errors and what the grid of two laws may miss.
  it.each(plans)("is on average what drawn schedules have: %s", (name, plan) => {
    const counts = Array.from(
      { length: 5000 },
      (_, session) => sessionSchedule(plan, `${name}/${session}`).cues.length,
    );
    const mean = counts.reduce((sum, count) => sum + count, 0) / counts.length;
    const variance = counts.reduce((sum, count) => sum + (count - mean) ** 2, 0) / counts.length;
    const error = 4 * Math.sqrt(variance / counts.length) + 0.005;
    expect(Math.abs(expectedCues(plan) - mean)).toBeLessThan(error);
  });

  // The binomial error of a share of 5000 is .007 at most; .03 is four of it.
  it.each(plans)("lies on most days in the span that a teacher is told: %s", (name, plan) => {
    const counts = Array.from(
      { length: 5000 },
      (_, session) => sessionSchedule(plan, `${name}/span/${session}`).cues.length,
    );
    const { least, most } = cueSpan(plan);
    const share = (holds: (count: number) => boolean) => counts.filter(holds).length / 5000;
    expect(share((count) => count < least)).toBeLessThan(0.13);
    expect(share((count) => count <= least)).toBeGreaterThan(0.07);
    expect(share((count) => count > most)).toBeLessThan(0.13);
    expect(share((count) => count >= most)).toBeGreaterThan(0.07);
  });

  it("is always one where fixed intervals leave no room for a second", () => {
    expect(keptCounts(planWith({ law: "fixed", meanSeconds: 660 }))).toEqual([
      { cues: 1, chance: 1 },
    ]);
  });

  // A Poisson number has its mean m as its average; given at least one, m / (1 - e^-m).
  it("is Poisson for exponential intervals without a gap", () => {
    const plan = planWith({ meanSeconds: 900, shortestGapSeconds: 0 });
    const mean = 1200 / 900;
    expect(expectedCues(plan)).toBeCloseTo(mean, 5);
    expect(expectedCues({ ...plan, fewestCues: 1 })).toBeCloseTo(mean / -Math.expm1(-mean), 5);
    const chances = [1, mean, mean ** 2 / 2, mean ** 3 / 6].map((term) => term * Math.exp(-mean));
    const found = keptCounts(plan).slice(0, 4);
    expect(found.map(({ cues }) => cues)).toEqual([0, 1, 2, 3]);
    for (const [at, { chance }] of found.entries()) expect(chance).toBeCloseTo(chances[at] ?? 0, 6);
  });

  // The limit of the renewal function: room / mean + (variance / mean^2 - 1) / 2. Uniform from 5 to 35 s has
  // variance 30^2 / 12, so 539.594 at 10,800 s; convolving the waits on a grid of 0.1 s with NumPy 2.4.6: 539.596.
  it("comes near the renewal theorem in a long session", () => {
    const plan = planWith({
      law: "uniform",
      meanSeconds: 20,
      shortestGapSeconds: 5,
      lengthSeconds: 10_800,
    });
    expect(Math.abs(expectedCues(plan) - (540 + (75 / 400 - 1) / 2))).toBeLessThan(0.01);
  });

  it.each(plans)("has chances that add up to 1, from the floor on: %s", (_, plan) => {
    const counts = keptCounts(plan);
    expect(counts.reduce((sum, { chance }) => sum + chance, 0)).toBeCloseTo(1, 12);
    for (const { cues, chance } of counts) {
      expect(cues).toBeGreaterThanOrEqual(plan.fewestCues);
      expect(chance).toBeGreaterThanOrEqual(0);
    }
  });

  it("never goes past what a session can have", () => {
    const dense = planWith({ meanSeconds: 5.5, shortestGapSeconds: 0, lengthSeconds: 10_800 });
    expect(keptCounts(dense).at(-1)?.cues).toBe(mostCues);
  });

  it("refuses a floor that no draw reaches", () => {
    expect(() => keptCounts(planWith({ law: "fixed", fewestCues: 11 }))).toThrow(RangeError);
    expect(() => expectedCues(planWith({ leadInSeconds: 1200, fewestCues: 1 }))).toThrow(
      RangeError,
    );
  });
});
