import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ofTen } from "../../../../../shared/reading/told/of-ten.ts";
import { wilsonInterval } from "../../../../../shared/statistics/wilson.ts";

describe("a rate of every ten times", () => {
  it("is rounded to the nearest, and its interval outwards to whole tenths", () => {
    expect(ofTen(0.71, { lower: 0.58, upper: 0.81 })).toEqual({ about: 7, low: 5, high: 9 });
    expect(ofTen(0.7, { lower: 0.3, upper: 0.9 })).toEqual({ about: 7, low: 3, high: 9 });
    expect(ofTen(0, { lower: 0, upper: 0.04 })).toEqual({ about: 0, low: 0, high: 1 });
    expect(ofTen(1, { lower: 0.96, upper: 1 })).toEqual({ about: 10, low: 9, high: 10 });
  });

  // 81 of 263 has the Wilson interval 0.2553 to 0.3662 (computed from the formula), then worked by hand.
  it("widens an interval of 26 to 37 % to two to four of ten", () => {
    expect(ofTen(81 / 263, { lower: 0.2553, upper: 0.3662 })).toEqual({
      about: 3,
      low: 2,
      high: 4,
    });
  });

  it("is never surer than its interval, and rounds by half of one in ten at most", () => {
    fc.assert(
      fc.property(fc.nat(60), fc.nat(60), (on, off) => {
        fc.pre(on + off > 0);
        const rate = on / (on + off);
        const interval = wilsonInterval(on, on + off);
        const { about, low, high } = ofTen(rate, interval);
        expect(Math.abs(about / 10 - rate)).toBeLessThanOrEqual(0.05 + 1e-9);
        expect(low / 10).toBeLessThanOrEqual(interval.lower + 1e-9);
        expect(high / 10).toBeGreaterThanOrEqual(interval.upper - 1e-9);
        expect(low).toBeLessThanOrEqual(about);
        expect(about).toBeLessThanOrEqual(high);
        for (const count of [about, low, high]) expect(Number.isInteger(count)).toBe(true);
      }),
    );
  });

  it("refuses what is no rate", () => {
    expect(() => ofTen(1.2, { lower: 0, upper: 1 })).toThrow("from 0 to 1; got 1.2");
    expect(() => ofTen(Number.NaN, { lower: 0, upper: 1 })).toThrow(RangeError);
  });
});
