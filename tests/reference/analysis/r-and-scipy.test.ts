import { describe, expect, it } from "vitest";
import { kendall } from "../../../shared/statistics/kendall.ts";
import { mannKendall } from "../../../shared/statistics/mann-kendall.ts";
import { normalCdf, normalQuantile } from "../../../shared/statistics/normal.ts";
import { hamedRaoFactor } from "../../../shared/statistics/serial-correlation.ts";
import { criticalT } from "../../../shared/statistics/student-t.ts";
import { theilSen } from "../../../shared/statistics/theil-sen.ts";
import { timePoints } from "../../../shared/statistics/time-points.ts";
import { wilsonInterval } from "../../../shared/statistics/wilson.ts";
import r from "../data/trend-r.json" with { type: "json" };
import scipy from "../data/trend-scipy.json" with { type: "json" };

/** Equal to a relative error. */
const same = (value: number, expected: number, relative: number, what = "") =>
  expect(Math.abs(value - expected), what).toBeLessThanOrEqual(relative * Math.abs(expected));

describe(`${r.source}, seed ${r.seed}`, () => {
  it("has the same normal distribution to the last digits, far tails too", () => {
    r.normal.z.forEach((z, at) => {
      same(normalCdf(z), r.normal.cdf[at] ?? 0, 2e-15, `z ${z}`);
    });
    r.normal.p.forEach((p, at) => {
      same(normalQuantile(p), r.normal.quantile[at] ?? 0, 2e-15, `p ${p}`);
    });
  });

  it("has the same Student's t", () => {
    r.student.degrees.forEach((degrees, at) => {
      same(criticalT(0.95, degrees), r.student.t95[at] ?? 0, 1e-11);
      same(criticalT(0.8, degrees), r.student.t80[at] ?? 0, 1e-11);
    });
  });

  it("has prop.test's Wilson intervals", () => {
    for (const { on, total, confidence, lower, upper } of r.wilson) {
      const interval = wilsonInterval(on, total, confidence);
      expect(interval.lower).toBeCloseTo(lower, 12);
      expect(interval.upper).toBeCloseTo(upper, 12);
    }
  });

  it("has cor.test's tau and p: exact without ties, normal with ties in both rankings", () => {
    for (const item of r.kendall) {
      const test = mannKendall(timePoints(item.x, item.y));
      expect(test.method).toBe(item.ties ? "normal" : "exact");
      expect(test.tau).toBeCloseTo(item.tau, 12);
      // R keeps the correction when S is 0, which leaves p a hair under 1; ours is then exactly 1.
      if (test.s !== 0) same(test.p, item.p, 1e-9);
    }
  });

  it("has Hamed and Rao's factor from R's ranks and autocorrelations", () => {
    for (const { y, lags, slope, factor } of r.serial) {
      const x = y.map((_, at) => at + 1);
      const line = theilSen(timePoints(x, y));
      if (line.kind === "not-enough") throw new Error(line.reason);
      same(line.slope, slope, 1e-12);
      const residuals = y.map((value, at) => value - line.slope * (at + 1));
      same(hamedRaoFactor(residuals, lags), factor, 1e-10);
    }
  });
});

describe(`${scipy.source}, seed ${scipy.seed}`, () => {
  it("has theilslopes' slope, intercept and limits", () => {
    for (const { x, y, ...expected } of scipy.theil) {
      const found = theilSen(timePoints(x, y));
      if (found.kind === "not-enough") throw new Error(found.reason);
      expect(found.slope).toBeCloseTo(expected.slope, 12);
      expect(found.intercept).toBeCloseTo(expected.intercept, 10);
      expect(found.interval.lower).toBeCloseTo(expected.lower, 12);
      expect(found.interval.upper).toBeCloseTo(expected.upper, 12);
    }
  });

  it("has kendalltau's tau-b with many ties", () => {
    for (const { x, y, tau } of scipy.tau) {
      expect(kendall(timePoints(x, y)).tau).toBeCloseTo(tau, 12);
    }
  });
});
