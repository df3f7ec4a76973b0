import { describe, expect, it } from "vitest";
import { betweenCaseStatement } from "../../../shared/analysis/statements/between-case.ts";
import { dayText } from "../../../shared/calendar/calendar.ts";
import { betweenCaseEffect } from "../../../shared/statistics/between-case/between-case-effect.ts";
import { inverseTimes } from "../../../shared/statistics/between-case/case-algebra.ts";
import { leastNear } from "../../../shared/statistics/between-case/nelder-mead.ts";

// Laski KE, Charlop MH, Schreibman L (1988), Journal of Applied Behavior Analysis 21:391-400: percent of
// intervals with speech for eight children, before and after their mothers' training, as read from the
// published graph by Hedges, Pustejovsky and Shadish (2013) and shared with the R package scdhlm 0.5.2. The
// expected values are those that its README prints, by nlme's lme with corAR1 and restricted likelihood.
const children: readonly (readonly [before: readonly number[], after: readonly number[]])[] = [
  [
    [27.6, 23.96, 23.83, 47.26],
    [52.7, 60.99, 66.6, 52.5, 85.88, 47.05, 66.28, 54.05, 51.23],
  ],
  [
    [49.67, 23.57, 26.38, 28.35, 45.11],
    [70.67, 79.13, 84.09, 88.56, 80.9, 91.84, 63.42, 70.38],
  ],
  [
    [0, 0, 0, 0, 0, 0, 0],
    [28.07, 28.2, 57.15, 72.37, 45.56, 52.3, 28.37, 60.37, 57.46],
  ],
  [
    [32.84, 14.26, 0, 7.99, 23.55, 11.51, 28.22, 44.94, 35.02, 4.34],
    [69.26, 69.96, 62.98, 58.13, 58.17, 27.67, 70.85],
  ],
  [
    [46.7, 56.07, 32.28, 36.7, 59.93, 12.05, 34.95],
    [75.18, 92.15, 85.84, 83.33, 81.16, 74.86, 86.54, 74.96, 87.13],
  ],
  [
    [52.32, 51.99, 65.23, 57.28, 67.55, 57.62, 55.46],
    [78.31, 89.4, 72.35, 86.59, 81.79, 89.57, 84.11],
  ],
  [
    [58.06, 65.79, 52.63, 72.37, 81.91, 71.38, 73.52, 70.56],
    [45.39, 77.14, 71.88, 77.14, 87.01, 84.7, 74.18, 54.11, 74.67, 76.15, 83.39],
  ],
  [
    [41.36, 73.04, 47.25, 67.13, 62.1, 56.91, 66.66, 51, 72.87, 48.41, 16.96],
    [81.37, 86.48, 69.98, 78.41, 72.21, 70.51, 67.47, 84.53, 81],
  ],
];

const cases = children.map(([before, after]) => ({
  values: [...before, ...after],
  treated: [...before.map(() => false), ...after.map(() => true)],
}));

function effectOf(series: typeof cases) {
  const found = betweenCaseEffect(series);
  if (found === null) throw new Error("no effect");
  return found;
}

describe("the between-case effect of a published multiple baseline", () => {
  const found = effectOf(cases);

  it("is that of the published example, with its interval and degrees of freedom", () => {
    expect(found.g).toBeCloseTo(1.405, 3);
    expect(found.uncorrected).toBeCloseTo(1.465, 3);
    expect(found.standardError).toBeCloseTo(0.286, 3);
    expect(found.degrees).toBeCloseTo(18.552, 3);
    expect(found.interval.lower).toBeCloseTo(0.8046224, 4);
    expect(found.interval.upper).toBeCloseTo(2.0051521, 4);
  });

  it("rests on the same model", () => {
    const { fit } = found;
    expect(fit.level).toBeCloseTo(39.07612, 3);
    expect(fit.effect).toBeCloseTo(30.68366, 3);
    expect(fit.effectError).toBeCloseTo(2.996, 3);
    expect(fit.between).toBeCloseTo(245.9497, 2);
    expect(fit.within).toBeCloseTo(192.7711, 2);
    expect(fit.phi).toBeCloseTo(0.252769, 5);
    expect(fit.logLikelihood).toBeCloseTo(-519.1424, 4);
  });

  it("does not hang on the unit, and turns over with the values", () => {
    const shares = cases.map((each) => ({
      ...each,
      values: each.values.map((value) => 1 - value / 100),
    }));
    const turned = effectOf(shares);
    expect(turned.g).toBeCloseTo(-found.g, 6);
    expect(turned.degrees).toBeCloseTo(found.degrees, 4);
  });

  it("is withheld where nothing scatters", () => {
    const steps = cases.map((each) => ({
      ...each,
      values: each.treated.map((is) => (is ? 0.8 : 0.4)),
    }));
    expect(betweenCaseEffect(steps)).toBeNull();
  });

  it("comes out of counted sessions as well", () => {
    const members = children.map(([before, after], child) => {
      const sessions = [...before, ...after].map((percent, at) => ({
        sessionId: `${child} ${at}`,
        startedAt: at * 86_400_000,
        day: dayText(20_000 + at),
        on: Math.round(percent * 100),
        off: 10_000 - Math.round(percent * 100),
        missing: 0,
        source: "observer" as const,
      }));
      return {
        sessions,
        phases: [
          { kind: "baseline" as const, label: "", sessions: sessions.slice(0, before.length) },
          { kind: "intervention" as const, label: "", sessions: sessions.slice(before.length) },
        ],
      };
    });
    const stated = betweenCaseStatement(members);
    expect(stated).toMatchObject({
      kind: "enough",
      source: "observer",
      students: 8,
      sessions: 128,
    });
    expect(stated.kind === "enough" ? stated.g : 0).toBeCloseTo(1.405, 3);
    expect(betweenCaseStatement(members.slice(0, 2))).toMatchObject({
      kind: "not-enough",
      have: 2,
    });
  });
});

describe("its parts", () => {
  it("multiply by the inverse of an autoregression", () => {
    // R of three points with .5, times its inverse times (1, 2, 3), is (1, 2, 3) again.
    const [a, b, c] = inverseTimes([1, 2, 3], 0.5) as unknown as [number, number, number]; // three points
    expect(a + b / 2 + c / 4).toBeCloseTo(1, 12);
    expect(a / 2 + b + c / 2).toBeCloseTo(2, 12);
    expect(a / 4 + b / 2 + c).toBeCloseTo(3, 12);
  });

  it("find the lowest place of the banana valley (Rosenbrock 1960)", () => {
    const [x, y] = leastNear(([a, b]) => 100 * (b - a * a) ** 2 + (1 - a) ** 2, [-1.2, 1], 0.5);
    expect(x).toBeCloseTo(1, 5);
    expect(y).toBeCloseTo(1, 5);
  });
});
