import { describe, expect, it } from "vitest";
import { dualCriterion } from "../../../shared/analysis/phases/dual-criterion.ts";
import { logOddsRatio } from "../../../shared/analysis/phases/log-odds-ratio.ts";
import { randomizationTest } from "../../../shared/analysis/phases/randomization-test.ts";
import {
  baselineCorrectedTau,
  tauWithPhase,
} from "../../../shared/statistics/baseline-corrected-tau.ts";
import { nap } from "../../../shared/statistics/nap.ts";
import { pnd } from "../../../shared/statistics/pnd.ts";
import stored from "../data/phases.json";

// Stored results of SciPy 1.10.1 and NumPy 1.24.2 on random inputs with and without ties;
// scripts/reference/phases.py makes them anew and says which function gave what. The NAP interval's
// equation is the one written there; SciPy solves it independently.

function must<R extends { kind: string }>(result: R): Extract<R, { kind: "computed" }> {
  if (result.kind !== "computed") throw new Error(JSON.stringify(result));
  return result as Extract<R, { kind: "computed" }>; // the guard above leaves nothing else
}

describe.each(stored.phases.map((example, i) => ({ i, ...example })))("phases $i", (example) => {
  const { a, b } = example;

  it("NAP is U over all pairs; its limits solve the interval's equation", () => {
    const result = must(nap(a, b));
    expect(result.value).toBeCloseTo(example.nap, 12);
    expect(result.interval.lower).toBeCloseTo(example.napInterval[0] ?? -1, 8);
    expect(result.interval.upper).toBeCloseTo(example.napInterval[1] ?? -1, 8);
  });

  it("PND", () => expect(must(pnd(a, b)).value).toBeCloseTo(example.pnd, 12));

  it("log odds ratio and its error", () => {
    const result = must(logOddsRatio(a, b));
    expect(result.value).toBeCloseTo(example.logOddsRatio, 10);
    if (example.logOddsError === 0) expect(result.standardError.kind).toBe("not-computable");
    else expect(must(result.standardError).value).toBeCloseTo(example.logOddsError, 5);
  });

  it("tau-b raw and after the baseline's slope, by the trend's exact probability", () => {
    const result = must(baselineCorrectedTau(a, b));
    expect(tauWithPhase(a, b, 0)).toBeCloseTo(example.rawTauB, 10);
    expect(tauWithPhase(a, b, example.slope)).toBeCloseTo(example.correctedTauB, 10);
    if (example.trendProbability === null) return; // ties in A: SciPy has no exact probability
    expect(result.trendProbability).toBeCloseTo(example.trendProbability, 10);
    const corrected = example.trendProbability <= 0.05;
    expect(result.corrected).toBe(corrected);
    expect(result.slopeTakenOff).toBeCloseTo(corrected ? example.slope : 0, 12);
    expect(result.value).toBeCloseTo(corrected ? example.correctedTauB : example.rawTauB, 10);
  });

  it("points above both lines", () => {
    const result = must(dualCriterion(a, b));
    if (example.dualAbove !== null) expect(result.dual.above).toBe(example.dualAbove);
    if (example.conservativeAbove !== null)
      expect(result.conservative.above).toBe(example.conservativeAbove);
    if (example.needed === null) expect(result.needed.kind).toBe("not-computable");
    else expect(must(result.needed).value).toBe(example.needed);
  });
});

it("the stored inputs reach both branches of the 2017 rule", () => {
  const taken = stored.phases.map(({ a, b }) => must(baselineCorrectedTau(a, b)).corrected);
  expect(new Set(taken).size).toBe(2);
});

describe.each(stored.randomization.map((example, i) => ({ i, ...example })))(
  "randomization $i",
  ({ days, values, permitted, start, ...expected }) => {
    it("counts every permitted start", () => {
      const points = days.map((day, i) => ({ day, value: values[i] ?? 0 }));
      const result = must(randomizationTest(points, permitted, start));
      expect(result.difference).toBeCloseTo(expected.difference, 12);
      expect(result.probability).toBeCloseTo(expected.probability, 12);
      expect(result.twoSidedProbability).toBeCloseTo(expected.twoSidedProbability, 12);
      expect(result.permitted).toBe(7);
    });
  },
);
