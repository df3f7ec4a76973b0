import { describe, expect, it } from "vitest";
import { designEffect } from "../../../../shared/analysis/dispersion.ts";
import {
  directionOf,
  evidenceOfChange,
  evidenceOfP,
  weakerEvidence,
} from "../../../../shared/analysis/evidence.ts";
import { dispersedShare, pooledRate } from "../../../../shared/analysis/pooled.ts";
import { missingBounds, onTaskRate, responseRate } from "../../../../shared/analysis/rate.ts";
import { mannKendall } from "../../../../shared/statistics/mann-kendall.ts";
import { criticalZ, normalCdf, normalQuantile } from "../../../../shared/statistics/normal.ts";
import {
  averageRanks,
  serialCorrelationFactor,
} from "../../../../shared/statistics/serial-correlation.ts";
import { selectSlopes } from "../../../../shared/statistics/slope-selection.ts";
import { theilSen } from "../../../../shared/statistics/theil-sen.ts";
import { timePoints } from "../../../../shared/statistics/time-points.ts";
import { wilsonInterval } from "../../../../shared/statistics/wilson.ts";

describe("rates of one session", () => {
  it("leave cues without a mark out of the rate and show them beside it", () => {
    const counts = { on: 6, off: 2, missing: 2 };
    expect(onTaskRate(counts)).toMatchObject({ rate: 0.75, marks: 8 });
    expect(responseRate(counts)).toMatchObject({ rate: 0.8, marks: 8, cues: 10 });
    expect(missingBounds(counts)).toMatchObject({ bounds: { lower: 0.6, upper: 0.8 }, cues: 10 });
  });

  it("are withheld without marks or cues", () => {
    const nothing = { on: 0, off: 0, missing: 3 };
    expect(onTaskRate(nothing)).toMatchObject({ kind: "not-enough", reason: "no-marks" });
    expect(responseRate({ on: 0, off: 0, missing: 0 })).toMatchObject({ reason: "no-cues" });
    expect(missingBounds(nothing)).toMatchObject({ bounds: { lower: 0, upper: 1 } });
  });
});

describe("the design effect", () => {
  it("is Rao and Scott's ratio estimator, worked by hand", () => {
    // Rates .2 and .8 of ten: p = .5, residuals -3 and 3, (2/1) * 18 / (20 * .25) = 7.2.
    const sessions = [
      { on: 2, off: 8, missing: 0 },
      { on: 8, off: 2, missing: 0 },
    ];
    expect(designEffect([sessions])).toEqual({ designEffect: 7.2, degrees: 1 });
    const pooled = pooledRate(sessions);
    const expected = wilsonInterval(10 / 7.2, 20 / 7.2);
    expect(pooled).toMatchObject({ rate: 0.5, interval: expected, marks: 20, sessions: 2 });
  });

  it("is 1 when nothing can be learned about it", () => {
    const one = [{ on: 3, off: 2, missing: 0 }];
    const alike = [one[0], one[0]].map(() => ({ on: 5, off: 0, missing: 0 }));
    expect(designEffect([])).toEqual({ designEffect: 1, degrees: 0 });
    expect(designEffect([one, alike])).toEqual({ designEffect: 1, degrees: 0 });
  });
});

describe("evidence", () => {
  it("follows the two intervals", () => {
    const around = (middle: number, reach: number) => ({
      lower: middle - reach,
      upper: middle + reach,
    });
    expect(evidenceOfChange(around(5, 4), around(5, 2))).toBe("clear");
    expect(evidenceOfChange(around(-5, 6), around(-5, 4))).toBe("probable");
    expect(evidenceOfChange(around(1, 6), around(1, 4))).toBe("cannot-tell");
    expect(evidenceOfChange(around(4, 4), around(4, 3))).toBe("probable");
  });

  it("follows the two p values, ends included", () => {
    expect([0.01, 0.05, 0.051, 0.2, 0.21].map(evidenceOfP)).toEqual([
      "clear",
      "clear",
      "probable",
      "probable",
      "cannot-tell",
    ]);
    expect(weakerEvidence("clear", "probable")).toBe("probable");
    expect([2, -2, 0].map(directionOf)).toEqual(["up", "down", "level"]);
  });
});

describe("serial correlation", () => {
  it("widens nothing for a short or an alternating series, much for a slow wave", () => {
    expect(serialCorrelationFactor([1, 2, 3, 4, 5, 6, 7, 8, 9])).toBe(1);
    expect(serialCorrelationFactor(Array.from({ length: 40 }, (_, at) => at % 2))).toBe(1);
    const wave = Array.from({ length: 60 }, (_, at) => Math.sin(at / 8));
    expect(serialCorrelationFactor(wave)).toBeGreaterThan(3);
  });

  it("ranks with shared means for ties", () => {
    expect([...averageRanks([3, 1, 3, 2])]).toEqual([3.5, 1, 3.5, 2]);
  });
});

describe("guards", () => {
  it("refuse what has no meaning", () => {
    const points = timePoints([0, 1, 2], [0, 1, 0]);
    expect(() => wilsonInterval(3, 2)).toThrow(RangeError);
    expect(() => wilsonInterval(0, 0)).toThrow(RangeError);
    expect(() => normalQuantile(1)).toThrow(RangeError);
    expect(() => normalCdf(Number.NaN)).toThrow(RangeError);
    expect(() => criticalZ(95)).toThrow(/between 0 and 1; got 95/);
    expect(() => dispersedShare({ on: 1, off: 1, missing: 0 }, 0.5)).toThrow(/1 or more/);
    expect(() => timePoints([0, 1], [0])).toThrow(/x and y must be of one length; got 2 and 1/);
    expect(() => timePoints([0, Number.NaN], [0, 1])).toThrow(/Point 2/);
    expect(() => mannKendall(points, 0.5)).toThrow(/1 or more/);
    expect(() => selectSlopes(points, 3, [3])).toThrow(/rank must be a whole number .* got 3/);
  });

  it("withhold a line through one moment", () => {
    expect(theilSen(timePoints([], []))).toMatchObject({ reason: "few-sessions", have: 0 });
    expect(theilSen(timePoints([3, 3], [0, 1]))).toMatchObject({ reason: "few-days" });
  });
});
