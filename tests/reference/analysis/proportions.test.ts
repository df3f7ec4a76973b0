import { createRequire } from "node:module";
import { describe, expect, it } from "vitest";
import { newcombeDifference } from "../../../shared/statistics/newcombe.ts";
import { criticalZ } from "../../../shared/statistics/normal.ts";
import { wilsonInterval } from "../../../shared/statistics/wilson.ts";

// jstat has no types of its own; these are the functions used here.
interface SecondOpinion {
  normal: { inv(p: number, mean: number, sd: number): number };
  chisquare: { inv(p: number, degrees: number): number };
}
const { jStat }: { jStat: SecondOpinion } = createRequire(import.meta.url)("jstat");

describe("Wilson's interval", () => {
  // Newcombe (1998), Statistics in Medicine 17:857-872, Table I, method 3; as quoted in public tests.
  it.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])("is Newcombe's for %i of %i", (on, total, lower, upper) => {
    const interval = wilsonInterval(on, total);
    expect(interval.lower).toBeCloseTo(lower, 4);
    expect(interval.upper).toBeCloseTo(upper, 4);
  });

  // statsmodels 0.13.5, proportion_confint(method="wilson").
  it.each([
    [0, 1, 0, 0.793451],
    [1, 1, 0.206549, 1],
    [0, 10, 0, 0.277533],
    [5, 10, 0.236593, 0.763407],
    [10, 10, 0.722467, 1],
    [16, 20, 0.583983, 0.919342],
    [20, 20, 0.838875, 1],
    [81, 263, 0.255289, 0.36621],
  ])("is that of statsmodels for %i of %i", (on, total, lower, upper) => {
    const interval = wilsonInterval(on, total);
    expect(interval.lower).toBeCloseTo(lower, 6);
    expect(interval.upper).toBeCloseTo(upper, 6);
  });

  it("takes its critical value from the same normal as jstat", () => {
    for (const confidence of [0.5, 0.8, 0.9, 0.95, 0.99]) {
      const expected = jStat.normal.inv(0.5 + confidence / 2, 0, 1);
      expect(criticalZ(confidence)).toBeCloseTo(expected, 9);
    }
  });
});

describe("the drop of the profile interval", () => {
  // Upper .05 point of chi-square with one degree of freedom: 3.841458821 from SciPy. The profile interval of Firth's fit goes
  // down by half the square of the normal's critical value, which is the same number.
  it("is chi-square's, from the square of the critical value", () => {
    expect(criticalZ(0.95) ** 2).toBeCloseTo(3.841458821, 9);
    for (const confidence of [0.8, 0.9, 0.95, 0.99]) {
      expect(criticalZ(confidence) ** 2).toBeCloseTo(jStat.chisquare.inv(confidence, 1), 7);
    }
  });
});

describe("Newcombe's interval for a difference", () => {
  // Newcombe (1998), Statistics in Medicine 17:873-890, Table II, method 10; as quoted in public tests.
  it.each([
    ["a", 56, 70, 48, 80, 0.0524, 0.3339],
    ["b", 9, 10, 3, 10, 0.1705, 0.809],
    ["c", 6, 7, 2, 7, 0.0582, 0.8062],
    ["d", 5, 56, 0, 29, -0.0381, 0.1926],
    ["e", 0, 10, 0, 20, -0.1611, 0.2775],
    ["f", 0, 10, 0, 10, -0.2775, 0.2775],
    ["g", 10, 10, 0, 20, 0.6791, 1],
    ["h", 10, 10, 0, 10, 0.6075, 1],
  ])("is row %s of the table", (_row, on, total, otherOn, otherTotal, lower, upper) => {
    const { interval } = newcombeDifference({ on, total }, { on: otherOn, total: otherTotal });
    // Half a unit of the last printed digit, and a hair for rounding.
    expect(Math.abs(interval.lower - lower)).toBeLessThan(0.000051);
    expect(Math.abs(interval.upper - upper)).toBeLessThan(0.000051);
  });
});
