import { describe, expect, it } from "vitest";
import { exactUpperTail, kendall } from "../../../shared/statistics/kendall.ts";
import { mannKendall } from "../../../shared/statistics/mann-kendall.ts";
import { theilSen } from "../../../shared/statistics/theil-sen.ts";
import { timePoints } from "../../../shared/statistics/time-points.ts";

const series = (y: number[]) =>
  timePoints(
    y.map((_, at) => at + 1),
    y,
  );

const line = (x: number[], y: number[]) => {
  const found = theilSen(timePoints(x, y));
  if (found.kind === "not-enough") throw new Error(found.reason);
  return found;
};

describe("the hand example of Holy Cross College", () => {
  // mathcs.holycross.edu/~little/Montserrat/MannKendallByHand.txt: 72 up, 18 down, 1 tie.
  const y = [12.9, 14.8, 13.2, 15.7, 13.8, 15.6, 12.9, 11.0, 17.3, 15.9, 19.0, 18.3, 20.1, 21.7];

  it("has the S, variance, Z and p worked there by hand", () => {
    const test = mannKendall(series(y));
    expect(test.s).toBe(54);
    expect(test.variance).toBeCloseTo((14 * 13 * 33) / 18 - (2 * 1 * 9) / 18, 10);
    expect(test.z).toBeCloseTo(2.9058, 4);
    expect(test.p / 2).toBeCloseTo(0.0018, 4);
  });

  // SciPy 1.10.1: kendalltau and theilslopes.
  it("has SciPy's tau-b, slope, intercept and slope limits", () => {
    expect(kendall(series(y)).tau).toBeCloseTo(0.596694, 6);
    const found = line(
      y.map((_, at) => at + 1),
      y,
    );
    expect(found.slope).toBeCloseTo(0.5666667, 7);
    expect(found.intercept).toBeCloseTo(11.4, 10);
    expect(found.interval.lower).toBeCloseTo(0.325, 10);
    expect(found.interval.upper).toBeCloseTo(0.866667, 6);
  });
});

describe("cloud seeding, Example 9.1 of Hollander, Wolfe and Chicken (2014)", () => {
  // Data as in the book's companion code; slope, S, tau and p computed with SciPy 1.10.1.
  const y = [1.26, 1.27, 1.12, 1.16, 1.03];

  it("has its slope, S, tau and exact p", () => {
    expect(line([1, 2, 3, 4, 5], y).slope).toBeCloseTo(-0.05625, 10);
    const test = mannKendall(series(y));
    expect(test.s).toBe(-6);
    expect(test.tau).toBeCloseTo(-0.6, 12);
    expect(test.method).toBe("exact");
    expect(test.p).toBeCloseTo(0.233333, 6);
  });
});

describe("short series, worked by counting orders", () => {
  // Of the 24 orders of four values, 4 have at most one pair that falls: 4 / 24.
  it("has S = 4 of four with tail .167", () => {
    const test = mannKendall(series([10, 15, 14, 20]));
    expect(test.s).toBe(4);
    expect(exactUpperTail(4, 4)).toBeCloseTo(0.167, 3);
  });

  // Of the 120 orders of five values, 1 + 4 + 9 have at most two pairs that fall: 14 / 120.
  it("has S = 6 of five with tail .117", () => {
    const test = mannKendall(series([5, 6, 11, 8, 10]));
    expect(test.s).toBe(6);
    expect(exactUpperTail(5, 6)).toBeCloseTo(0.117, 3);
  });

  // One pair of 21 falls: 1 + 6 of the 5,040 orders have at most one, twice that is .002778. Of the slopes 15 of
  // the 21 are 1.
  it("is not pulled by one outlier", () => {
    const found = line([1, 2, 3, 4, 5, 6, 7], [1, 2, 3, 4, 5, 16, 7]);
    expect(found.slope).toBe(1);
    expect(found.intercept).toBe(0);
    const test = mannKendall(series([1, 2, 3, 4, 5, 16, 7]));
    expect(test.s).toBe(19);
    expect(test.p).toBeCloseTo(0.002778, 6);
    expect(test.z).toBeCloseTo(2.703381, 6);
  });

  // Hollander and Wolfe (1973), p. 187f, as in the help page of R's cor.test.
  it("has the tuna example's tau and one-sided p", () => {
    const x = [44.4, 45.9, 41.9, 53.3, 44.7, 44.1, 50.7, 45.2, 60.1];
    const y = [2.6, 3.1, 2.5, 5.0, 3.6, 4.0, 5.2, 2.8, 3.8];
    const test = mannKendall(timePoints(x, y));
    expect((test.s + 36) / 2).toBe(26);
    expect(test.tau).toBeCloseTo(0.4444444, 7);
    expect(test.p / 2).toBeCloseTo(0.0597, 4);
  });
});

describe("the exact distribution of S", () => {
  // Entries of the usual Kendall/Gilbert table, recomputed to six digits by counting permutations.
  const table: Record<number, Record<number, number>> = {
    4: { 6: 0.041667, 4: 0.166667, 2: 0.375, 0: 0.625 },
    5: { 10: 0.008333, 8: 0.041667, 6: 0.116667, 4: 0.241667, 2: 0.408333, 0: 0.591667 },
    6: {
      15: 0.001389,
      13: 0.008333,
      11: 0.027778,
      9: 0.068056,
      7: 0.136111,
      5: 0.234722,
      3: 0.359722,
      1: 0.5,
    },
    7: {
      21: 0.000198,
      19: 0.001389,
      17: 0.005357,
      15: 0.015079,
      13: 0.034524,
      11: 0.068056,
      9: 0.119444,
      7: 0.190675,
      5: 0.280952,
      3: 0.38631,
      1: 0.5,
    },
    8: {
      28: 0.000025,
      26: 0.000198,
      24: 0.000868,
      22: 0.002753,
      20: 0.007068,
      18: 0.015575,
      16: 0.030506,
      14: 0.05434,
      12: 0.089435,
      10: 0.13755,
      8: 0.19938,
      6: 0.274206,
      4: 0.359772,
      2: 0.452431,
    },
    9: {
      24: 0.006333,
      22: 0.01237,
      20: 0.022308,
      18: 0.037588,
      16: 0.059719,
      14: 0.09009,
      12: 0.129759,
      10: 0.179244,
    },
    10: { 27: 0.008333, 25: 0.014305, 23: 0.023311, 21: 0.036275, 19: 0.054157 },
  };

  it("has the table's tails", () => {
    for (const [n, tails] of Object.entries(table)) {
      for (const [s, tail] of Object.entries(tails)) {
        expect(exactUpperTail(Number(n), Number(s)), `n ${n}, S ${s}`).toBeCloseTo(tail, 6);
      }
    }
  });

  it("cannot reach .05 with four points, and reaches .0167 with five", () => {
    expect(mannKendall(series([1, 2, 3, 4])).p).toBeCloseTo(0.0833, 4);
    expect(mannKendall(series([1, 2, 3, 4, 5])).p).toBeCloseTo(0.0167, 4);
  });
});
