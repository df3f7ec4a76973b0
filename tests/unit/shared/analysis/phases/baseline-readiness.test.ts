import { describe, expect, it } from "vitest";
import { baselineReadiness } from "../../../../../shared/analysis/phases/baseline-readiness.ts";
import { pointsStandard } from "../../../../../shared/analysis/phases/points-standard.ts";

// At least three points, better five: the rule that points-standard.ts names with its source. When a baseline
// counts as rising: common practice, no source.

const days = (...values: number[]) => values.map((value, day) => ({ day, value }));

describe("points of a phase against the standard", () => {
  it.each([
    [0, "does-not-meet"],
    [2, "does-not-meet"],
    [3, "with-reservations"],
    [4, "with-reservations"],
    [5, "meets"],
    [40, "meets"],
  ])("%i points: %s", (points, standard) => {
    expect(pointsStandard(points)).toBe(standard);
  });
});

describe("enough baseline?", () => {
  it("not before three points, and says how many are missing", () => {
    expect(baselineReadiness(days(0.4, 0.5))).toMatchObject({
      decision: "not-yet",
      reason: "fewer-than-three-points",
      missingFromFewest: 1,
      missingFromWanted: 3,
    });
    expect(baselineReadiness([])).toMatchObject({ decision: "not-yet", points: 0, rise: 0 });
  });

  it("with reservations from three, ready from five", () => {
    expect(baselineReadiness(days(0.5, 0.4, 0.45))).toMatchObject({
      decision: "ready-with-reservations",
      reason: "fewer-than-five-points",
    });
    expect(baselineReadiness(days(0.5, 0.4, 0.45, 0.5, 0.4))).toMatchObject({
      decision: "ready",
      reason: "enough-and-steady",
    });
  });

  it("not while it rises: three in a row by chance 1 in 6, four of five pairs", () => {
    const three = baselineReadiness(days(0.3, 0.4, 0.5));
    expect(three).toMatchObject({ decision: "not-yet", reason: "rising" });
    expect(three.risingProbability).toBeCloseTo(1 / 6, 10);
    expect(three.rise).toBeCloseTo(0.2, 10);
    // The rising baseline of worked example E2: S = 8 of 10, one-sided exact p = .041667.
    const five = baselineReadiness(days(0.2, 0.3, 0.25, 0.35, 0.4));
    expect(five).toMatchObject({ decision: "not-yet", reason: "rising" });
    expect(five.risingProbability).toBeCloseTo(0.041667, 6);
  });

  it("a rise too small to matter does not hold it back", () => {
    expect(baselineReadiness(days(0.4, 0.41, 0.42, 0.43, 0.44)).decision).toBe("ready");
  });

  it("a falling baseline does not hold it back", () => {
    expect(baselineReadiness(days(0.6, 0.5, 0.4, 0.3, 0.2)).decision).toBe("ready");
  });

  it("many sessions of one day show no trend", () => {
    const oneDay = [0.2, 0.4, 0.6].map((value) => ({ day: 9, value }));
    expect(baselineReadiness(oneDay)).toMatchObject({ reason: "fewer-than-five-points", rise: 0 });
  });
});
