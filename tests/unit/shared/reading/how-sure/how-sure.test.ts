import { describe, expect, it } from "vitest";
import { howSure, type SteadyErrors } from "../../../../../shared/reading/how-sure/how-sure.ts";

// The page's own figures, few replicates: limits are those promised (tests/bench/calibration/conditions.ts,
// near enough for r = .2 and .6) at four standard errors of 200 students.
const replicates = 200;
const above = (goal: number) => goal + 4 * Math.sqrt((goal * (1 - goal)) / replicates);

const goals: Readonly<Record<keyof SteadyErrors, readonly [usual: number, alike: number]>> = {
  trendClear: [0.05, 0.09],
  trendAny: [0.2, 0.27],
  weekClear: [0.05, 0.09],
  weekAny: [0.2, 0.27],
  phasesClear: [0.05, 0.09],
  phasesAny: [0.2, 0.27],
  missed: [0.07, 0.1],
  flagged: [0.25, 0.25],
  thinned: [0.1, 0.2],
  steppedBack: [0.1, 0.2],
};

describe.each([
  { cues: 5, rate: 0.6, perWeek: 5 },
  { cues: 10, rate: 0.7, perWeek: 2 },
  { cues: 40, rate: 0.9, perWeek: 10 },
])("how sure a class with $cues cues at a rate of $rate, $perWeek times a week, can be", (plan) => {
  const found = howSure(plan, replicates);

  it("errs no more often than promised", () => {
    for (const [name, [usual, alike]] of Object.entries(goals)) {
      const key = name as keyof SteadyErrors;
      expect(found.usual[key], `${name}, usual`).toBeLessThanOrEqual(above(usual));
      expect(found.alike[key], `${name}, much alike`).toBeLessThanOrEqual(above(alike));
    }
  });

  it("says probably no less often than clearly, and at all", () => {
    for (const errors of [found.usual, found.alike]) {
      expect(errors.trendAny).toBeGreaterThanOrEqual(errors.trendClear);
      expect(errors.weekAny).toBeGreaterThanOrEqual(errors.weekClear);
      expect(errors.phasesAny).toBeGreaterThanOrEqual(errors.phasesClear);
      expect(errors.trendAny).toBeGreaterThan(0.05);
    }
  });

  it("takes no record that says yes at every cue for a match", () => {
    expect(found.match).toMatchObject({ checks: 20 });
    expect(found.match.good).toBeLessThanOrEqual(0.05);
    expect(found.match.thinned).toBeLessThanOrEqual(0.05);
  });

  it("finds more by more sessions, and large changes more often than small ones", () => {
    for (const row of found.found) expect(row.thirtyPoints).toBeGreaterThanOrEqual(row.tenPoints);
    expect(found.found.at(-1)?.twentyPoints).toBeGreaterThan(
      found.found[0]?.twentyPoints ?? Number.NaN,
    );
    expect(found.reach.week).toBeLessThan(found.reach.session);
  });
});

it("gives the same figures every time, and refuses what is no plan", () => {
  const plan = { cues: 5, rate: 0.5, perWeek: 5 };
  expect(howSure(plan, 10)).toEqual(howSure(plan, 10));
  expect(() => howSure({ ...plan, cues: 2.5 }, 10)).toThrow("got 2.5");
  expect(() => howSure({ ...plan, rate: 60 }, 10)).toThrow("got 60");
  expect(() => howSure({ ...plan, perWeek: 0 }, 10)).toThrow("got 0");
});
