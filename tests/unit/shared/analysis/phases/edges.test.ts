import { describe, expect, it } from "vitest";
import { dualCriterion } from "../../../../../shared/analysis/phases/dual-criterion.ts";
import { immediacy } from "../../../../../shared/analysis/phases/immediacy.ts";
import { level } from "../../../../../shared/analysis/phases/level.ts";
import { logOddsRatio } from "../../../../../shared/analysis/phases/log-odds-ratio.ts";
import { randomizationTest } from "../../../../../shared/analysis/phases/randomization-test.ts";
import { spread } from "../../../../../shared/analysis/phases/spread.ts";
import { phaseTrend } from "../../../../../shared/analysis/phases/trend.ts";
import { baselineCorrectedTau } from "../../../../../shared/statistics/baseline-corrected-tau.ts";
import { nap } from "../../../../../shared/statistics/nap.ts";
import { pnd } from "../../../../../shared/statistics/pnd.ts";
import { tau } from "../../../../../shared/statistics/tau.ts";

const not = (reason: string) => ({ kind: "not-computable", reason });

describe("what cannot be computed is a reason", () => {
  it.each([
    ["level of nothing", level([]), "empty-phase"],
    ["spread of one point", spread([0.4]), "fewer-than-two-points"],
    ["NAP against nothing", nap([], [1]), "empty-phase"],
    ["Tau against nothing", tau([1], []), "empty-phase"],
    ["PND against nothing", pnd([], [1]), "empty-phase"],
    ["immediacy of two points", immediacy([1, 2], [1, 2, 3]), "fewer-than-three-points"],
    ["baseline-corrected Tau on two", baselineCorrectedTau([1, 2], [3]), "fewer-than-three-points"],
    ["baseline-corrected Tau to nothing", baselineCorrectedTau([1, 2, 3], []), "empty-phase"],
    ["dual criterion on two", dualCriterion([1, 2], [3]), "fewer-than-three-points"],
    ["dual criterion to nothing", dualCriterion([1, 2, 3], []), "empty-phase"],
    ["log odds of one point", logOddsRatio([0.4], [0.5, 0.6]), "fewer-than-two-points"],
    ["log odds of all on task", logOddsRatio([0.4, 0.5], [1, 1]), "all-on-or-all-off"],
    ["log odds of all off task", logOddsRatio([0, 0], [0.5, 0.6]), "all-on-or-all-off"],
  ])("%s", (_, result, reason) => {
    expect(result).toEqual(not(reason));
  });

  // Five points over 14 days: common practice, no source.
  it.each([
    ["no point", []],
    ["four points over three weeks", [1, 8, 15, 21]],
    ["six points on one day", [4, 4, 4, 4, 4, 4]],
    ["ten points over 13 days", [13, 1, 2, 3, 4, 5, 8, 9, 10, 11]],
  ])("trend of %s", (_, days) => {
    const points = days.map((day) => ({ day, value: day / 100 }));
    expect(phaseTrend(points)).toEqual(not("too-short-for-trend"));
  });

  it("trend of five points over 14 days is given", () => {
    const points = [14, 1, 4, 8, 11].map((day) => ({ day, value: day / 100 }));
    expect(phaseTrend(points).kind).toBe("computed");
  });
});

describe("immediacy, by hand", () => {
  it("takes the last three of A and the first three of B", () => {
    expect(immediacy([99, 40, 50, 60], [70, 80, 90, 1])).toEqual({ kind: "computed", value: 30 });
  });
});

describe("trend per week, by hand", () => {
  it("1 a day is 7 a week; the order of the points does not matter", () => {
    const points = [9, 1, 5, 17, 13].map((day) => ({ day, value: 10 + day }));
    expect(phaseTrend(points)).toMatchObject({
      kind: "computed",
      slopePerWeek: 7,
      intercept: 10,
      tau: 1,
      probability: 2 / 120, // one order of five in 120, either way
    });
  });
});

describe("rates outside 0 to 1 are refused", () => {
  it.each([[[40, 50]], [[-0.1, 0.5]], [[Number.NaN, 0.5]]])("%j", (rates) => {
    expect(() => logOddsRatio(rates, [0.5, 0.6])).toThrow("Rates must be from 0 to 1");
  });
});

describe("the dual criterion with four points gives lines, and no decision", () => {
  it("says that too few points can show it", () => {
    expect(dualCriterion([1, 2, 1], [9, 9, 9, 9])).toMatchObject({
      dual: { above: 4, decision: "too-few-points" },
      needed: not("fewer-than-five-points"),
    });
  });
});

describe("the randomization test, by hand", () => {
  const points = [1, 1, 1, 5, 5, 5].map((value, i) => ({ day: i + 1, value }));

  it("the best of five starts has probability 1/5", () => {
    expect(randomizationTest(points, [2, 3, 4, 5, 6], 4)).toEqual({
      kind: "computed",
      difference: 4,
      probability: 0.2,
      twoSidedProbability: 0.2,
      permitted: 5,
    });
  });
  it("equal differences count as reaching it", () => {
    const flat = points.map(({ day }) => ({ day, value: 0.1 * 3 }));
    expect(randomizationTest(flat, [2, 3, 4], 3)).toMatchObject({ probability: 1 });
  });
  it("a permitted day without a session is its own start", () => {
    const gap = points.map(({ day, value }) => ({ day: day < 4 ? day : day + 7, value }));
    expect(randomizationTest(gap, [3, 4, 7, 11, 12], 11)).toMatchObject({ probability: 0.6 });
  });
  it.each([
    [[2, 3], 4, "start-not-permitted"],
    [[4], 4, "nothing-drawn"],
    [[4, 4], 4, "nothing-drawn"],
    [[1, 4], 4, "start-leaves-phase-empty"],
    [[4, 7], 4, "start-leaves-phase-empty"],
  ])("permitted %j, start %i: %s", (permitted, start, reason) => {
    expect(randomizationTest(points, permitted, start)).toEqual(not(reason));
  });
});
