import { describe, expect, it } from "vitest";
import { dualCriterion, neededAbove } from "../../../shared/analysis/phases/dual-criterion.ts";
import { level } from "../../../shared/analysis/phases/level.ts";
import { logOddsRatio } from "../../../shared/analysis/phases/log-odds-ratio.ts";
import { spread } from "../../../shared/analysis/phases/spread.ts";
import {
  baselineCorrectedTau,
  tauWithPhase,
} from "../../../shared/statistics/baseline-corrected-tau.ts";
import { nap } from "../../../shared/statistics/nap.ts";
import { countPairs } from "../../../shared/statistics/pair-counts.ts";
import { pnd } from "../../../shared/statistics/pnd.ts";
import { tau } from "../../../shared/statistics/tau.ts";
import { theilSen } from "../../../shared/statistics/theil-sen.ts";
import { timePoints } from "../../../shared/statistics/time-points.ts";

// Examples small enough to check by hand; their values were worked out apart from this project with
// SciPy 1.10.1 (mannwhitneyu, kendalltau, theilslopes) and NumPy. Formulas of the indices: as
// written beside each function, with their sources.

function must<R extends { kind: string }>(result: R): Extract<R, { kind: "computed" }> {
  if (result.kind !== "computed") throw new Error(JSON.stringify(result));
  return result as Extract<R, { kind: "computed" }>; // the guard above leaves nothing else
}

const shares = (percentages: number[]) => percentages.map((value) => value / 100);

/** The line of points one step apart, the first at 1. */
function theilSenOf(values: number[]) {
  const steps = values.map((_, at) => at + 1);
  return theilSen(timePoints(steps, values));
}

describe("E1, a clear change after a level baseline", () => {
  const a = [40, 55, 45, 50, 35];
  const b = [60, 50, 75, 80, 70, 85, 80];

  it("33 pairs up, 1 tied, 1 down of 35", () => {
    expect(countPairs(a, b)).toEqual({ higher: 33, tied: 1, lower: 1, pairs: 35 });
  });
  it("NAP .957143, U 33.5", () => {
    expect(must(nap(a, b)).value).toBeCloseTo(0.957143, 6);
    expect(must(nap(a, b)).value * 35).toBeCloseTo(33.5, 10);
  });
  it("Tau .914286", () => expect(must(tau(a, b)).value).toBeCloseTo(0.914286, 6));
  it("PND 6 of 7", () => expect(must(pnd(a, b)).value).toBeCloseTo(6 / 7, 12));
  it("means 45 and 71.428571, SDs 7.905694 and 12.488090", () => {
    expect(must(level(a)).mean).toBe(45);
    expect(must(level(b)).mean).toBeCloseTo(71.428571, 6);
    expect(must(spread(a)).standardDeviation).toBeCloseTo(7.905694, 6);
    expect(must(spread(b)).standardDeviation).toBeCloseTo(12.48809, 6);
  });
  it("log odds ratio 1.116961, variance .073898", () => {
    const result = must(logOddsRatio(shares(a), shares(b)));
    expect(result.value).toBeCloseTo(1.116961, 6);
    expect(must(result.standardError).value ** 2).toBeCloseTo(0.073898, 6);
  });
  it("trend of A: exact p .816667, so no correction: tau-b .676123", () => {
    const result = must(baselineCorrectedTau(a, b));
    expect(result.trendProbability).toBeCloseTo(0.816667, 6);
    expect(result.corrected).toBe(false);
    expect(result.value).toBeCloseTo(0.676123, 6);
  });
  it("Theil-Sen of A: slope -1.875, intercept 50.625", () => {
    expect(theilSenOf(a)).toMatchObject({ slope: -1.875, intercept: 50.625 });
  });
  it("tau-b .728219 if the correction by -1.875 were forced", () => {
    expect(tauWithPhase(a, b, -1.875)).toBeCloseTo(0.728219, 6);
  });
  it("7 of 7 above both lines, dual and conservative", () => {
    const result = must(dualCriterion(a, b));
    expect(result.dual).toMatchObject({ above: 7, decision: "change-shown", level: 45 });
    expect(result.conservative).toMatchObject({ above: 7, decision: "change-shown" });
    expect(result.needed).toEqual({ kind: "computed", value: 7 });
  });
  it("least squares on A: slope -1.5, intercept 49.5", () => {
    const { trendInA } = must(dualCriterion(a, b)).dual;
    trendInA.forEach((height, i) => {
      expect(height).toBeCloseTo(49.5 - 1.5 * (i + 1), 10);
    });
  });
});

describe("E2, a rising baseline that carries on", () => {
  const a = [20, 30, 25, 35, 40];
  const b = [45, 50, 55, 60, 50, 65];

  it("NAP 1, PND 1 and Tau 1 from trend alone", () => {
    expect(must(nap(a, b)).value).toBe(1);
    expect(must(pnd(a, b)).value).toBe(1);
    expect(must(tau(a, b)).value).toBe(1);
  });
  it("trend 43.5 to 66 carried on; 4 of 6 and 3 of 6 above both lines", () => {
    const result = must(dualCriterion(a, b));
    [43.5, 48, 52.5, 57, 61.5, 66].forEach((height, i) => {
      expect(result.dual.trendInB[i]).toBeCloseTo(height, 10);
    });
    expect(result.dual).toMatchObject({ above: 4, decision: "no-change-shown" });
    expect(result.conservative).toMatchObject({ above: 3, decision: "no-change-shown" });
    expect(result.needed).toEqual({ kind: "computed", value: 6 });
  });
  it("exact p .083333, so the 2017 rule does not correct: tau-b .745356", () => {
    const result = must(baselineCorrectedTau(a, b));
    expect(result.trendProbability).toBeCloseTo(0.083333, 6);
    expect(result.corrected).toBe(false);
    expect(result.value).toBeCloseTo(0.745356, 6);
  });
  it("Theil-Sen of A: slope 5, intercept 15", () => {
    expect(theilSenOf(a)).toMatchObject({ slope: 5, intercept: 15 });
  });
  it("tau-b -.286039 if the slope of 5 were taken off", () => {
    expect(tauWithPhase(a, b, 5)).toBeCloseTo(-0.286039, 6);
  });
  it("log odds ratio 1.014352", () => {
    expect(must(logOddsRatio(shares(a), shares(b))).value).toBeCloseTo(1.014352, 6);
  });
});

describe("E3, a falling baseline of three", () => {
  it("Tau is 1 and, unlike Tau-U's 1.333, never above it", () => {
    expect(must(tau([3, 2, 1], [4, 5, 6])).value).toBe(1);
    expect(must(baselineCorrectedTau([3, 2, 1], [4, 5, 6])).value).toBeLessThanOrEqual(1);
  });
});

describe("E4, all values equal in both phases", () => {
  const five = [0.5, 0.5, 0.5, 0.5, 0.5];

  it("NAP .5, Tau 0, PND 0, Kendall's tau-b undefined", () => {
    expect(must(nap(five, five)).value).toBe(0.5);
    expect(must(tau(five, five)).value).toBe(0);
    expect(must(pnd(five, five)).value).toBe(0);
    expect(baselineCorrectedTau(five, five)).toEqual({
      kind: "not-computable",
      reason: "all-equal",
    });
  });
  it("no point is above a line that it lies on", () => {
    expect(must(dualCriterion(five, five)).dual).toMatchObject({
      above: 0,
      decision: "no-change-shown",
    });
  });
  it("no difference, and no standard error that would claim certainty", () => {
    expect(logOddsRatio(five, five)).toMatchObject({
      kind: "computed",
      value: 0,
      standardError: { kind: "not-computable", reason: "no-spread" },
      interval: null,
    });
  });
});

describe("Hollander & Wolfe (1973) p. 69f, data as in the help page of R's wilcox.test", () => {
  const x = [0.8, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46];
  const y = [1.15, 0.88, 0.9, 0.74, 1.21];

  it("W = 35 of 50 pairs, so NAP = .70", () => {
    expect(countPairs(y, x)).toMatchObject({ higher: 35, tied: 0, pairs: 50 });
    expect(must(nap(y, x)).value).toBeCloseTo(0.7, 12);
  });
});

describe("points needed above both lines: binomial at .05, computed with SciPy's binom", () => {
  const table = [
    5, 6, 7, 7, 8, 9, 9, 10, 10, 11, 12, 12, 13, 13, 14, 15, 15, 16, 16, 17, 18, 18, 19, 19, 20, 20,
  ];
  it.each(table.map((needed, i) => [i + 5, needed]))("%i points need %i", (points, needed) => {
    expect(neededAbove(points)).toEqual({ kind: "computed", value: needed });
  });
  it.each([0, 1, 2, 3, 4])("%i points cannot show it", (points) => {
    expect(neededAbove(points)).toEqual({
      kind: "not-computable",
      reason: "fewer-than-five-points",
    });
  });
});
