import { describe, expect, it } from "vitest";
import { classDifference } from "../../../shared/analysis/statements/class-difference.ts";
import { classTrend } from "../../../shared/analysis/statements/class-trend.ts";
import { type RatePoint, ratePoints } from "../../../shared/analysis/statements/points.ts";
import { fitSlope } from "../../../shared/analysis/statements/slope.ts";
import { fitStretches } from "../../../shared/analysis/statements/stretches.ts";
import { dayNumber, dayText } from "../../../shared/calendar/calendar.ts";
import { fractionalCriticalT, fractionalP } from "../../../shared/statistics/fractional-t.ts";
import { incompleteBeta } from "../../../shared/statistics/incomplete-beta.ts";
import { serialForm } from "../../../shared/statistics/serial-least-squares.ts";
import r from "../data/serial-r.json" with { type: "json" };

const first = dayNumber("2024-09-02");

interface Rows {
  readonly day: readonly number[];
  readonly on: readonly number[];
  readonly marks: readonly number[];
}

const sessionsOf = ({ day, on, marks }: Rows) =>
  day.map((each, at) => ({
    sessionId: `${at}`,
    startedAt: (first + each) * 86_400_000,
    day: dayText(first + each),
    on: on[at] ?? 0,
    off: (marks[at] ?? 0) - (on[at] ?? 0),
    missing: 0,
    source: "self" as const,
  }));

const pointsOf = (rows: Rows): RatePoint[] => ratePoints(sessionsOf(rows));

/** Equal to a relative error. */
const same = (value: number | undefined, expected: number, relative = 1e-9) =>
  expect(Math.abs((value ?? Number.NaN) - expected)).toBeLessThanOrEqual(
    relative * Math.max(1e-12, Math.abs(expected)),
  );

describe(`${r.source}, seed ${r.seed}`, () => {
  it("has the same Student's t for any degrees of freedom, and the same incomplete beta", () => {
    for (const { degrees, confidence, critical, t, p } of r.t) {
      same(fractionalCriticalT(confidence, degrees), critical, 1e-10);
      same(fractionalP(t, degrees), p, 1e-10);
    }
    for (const { a, b, x, value } of r.beta) same(incompleteBeta(x, a, b), value, 1e-10);
  });

  it("has lm's slopes, with the same variance written out in full matrices", () => {
    for (const expected of r.slopes) {
      const found = fitSlope(pointsOf(expected));
      same(found?.slope, expected.slope);
      same(found?.fit.r, expected.r);
      same(found?.fit.phi, expected.phi);
      same(found?.standardError, expected.error);
      same(found?.degrees, expected.degrees);
    }
  });

  it("has slopes hardly less exact than gls with the same correlation", () => {
    for (const { slope, error, glsSlope, glsError } of r.slopes) {
      // No linear unbiased estimate is more exact than generalised least squares (Aitken 1935).
      expect(error).toBeGreaterThanOrEqual(glsError * (1 - 1e-9));
      expect(error).toBeLessThan(glsError * 1.1);
      expect(Math.abs(slope - glsSlope)).toBeLessThan(error);
    }
  });

  it("has the same phase rates, and what alike neighbours leave of them", () => {
    for (const expected of r.phases) {
      const points = pointsOf(expected);
      const found = fitStretches([points.slice(0, expected.first), points.slice(expected.first)]);
      same(found.fit.r, expected.r);
      same(found.fit.phi, expected.phi);
      found.rates.forEach((rate, at) => {
        same(rate.on / rate.marks, expected.rates[at] ?? 0);
        same(rate.degrees, expected.degrees[at] ?? 0);
        const scatter = Math.max(1, expected.phi);
        same(rate.designEffect, scatter * (expected.inflations[at] ?? 0));
      });
    }
  });

  it("has lm's common slope of students with levels of their own, and Mantel-Haenszel's difference", () => {
    for (const expected of r.classes) {
      const students = [1, 2, 3, 4, 5, 6].map((student) => {
        const at = expected.student.flatMap((each, place) => (each === student ? place : []));
        const pick = (list: readonly number[]) => at.map((place) => list[place] ?? 0);
        return sessionsOf({
          day: pick(expected.day),
          on: pick(expected.on),
          marks: pick(expected.marks),
        });
      });
      const trend = classTrend(students);
      same(trend.kind === "enough" ? trend.pointsPerWeek : Number.NaN, expected.slope * 700);
      const cut = dayText(first + 14);
      const change = classDifference(
        students.map((held) => ({
          earlier: ratePoints(held.filter(({ day }) => day < cut)),
          later: ratePoints(held.filter(({ day }) => day >= cut)),
        })),
      );
      same(change?.points, expected.difference * 100);
    }
  });
});

describe("the quadratic form", () => {
  it("is that of the autoregression's matrix", () => {
    // By hand: 1 + 4 + 9 + 2 (.5 x 2 + .5 x 6 + .25 x 3).
    expect(serialForm([1, 2, 3], 0.5)).toBeCloseTo(14 + 2 * (1 + 3 + 0.75), 12);
    expect(serialForm([], 0.5)).toBe(0);
  });
});
