import { describe, expect, it } from "vitest";
import { logisticTrend } from "../../../shared/statistics/logistic.ts";
import r from "../data/trend-r.json" with { type: "json" };

const fitted = (time: readonly number[], on: readonly number[], off: readonly number[]) => {
  const found = logisticTrend(
    time.map((t, at) => ({ time: t, on: on[at] ?? 0, off: off[at] ?? 0 })),
  );
  if (found.kind === "not-enough") throw new Error(found.reason);
  return found;
};

/** Standard errors without the dispersion, as a binomial fit prints them. */
const plainErrors = (found: ReturnType<typeof fitted>) => {
  const spread = Math.sqrt(Math.max(1, found.dispersion ?? 1));
  return { intercept: found.interceptError / spread, slope: found.slopeError / spread };
};

const near = (value: number, expected: number, relative = 1e-7) =>
  expect(Math.abs(value - expected)).toBeLessThanOrEqual(
    relative * Math.max(1, Math.abs(expected)),
  );

describe("logistic regression of grouped counts", () => {
  // Bliss (1935) in Dobson, An Introduction to Generalized Linear Models; output as printed at
  // sci.usq.edu.au/staff/dunn/glmlab (gli_30.html). Its coefficients need 61 killed at 1.8610.
  it("has Dobson's fit of Bliss's beetles", () => {
    const exposed = [59, 60, 62, 56, 63, 59, 62, 60];
    const killed = [6, 13, 18, 28, 52, 53, 61, 60];
    const dose = [1.6907, 1.7242, 1.7552, 1.7842, 1.8113, 1.8369, 1.861, 1.8839];
    const found = fitted(
      dose,
      killed,
      exposed.map((n, at) => n - (killed[at] ?? 0)),
    );
    expect(found.intercept).toBeCloseTo(-60.717455, 5);
    expect(found.slope).toBeCloseTo(34.270326, 5);
    // The printed errors stop one iteration short (R's glm does too by default): 5.180711 at the end.
    expect(Math.abs(plainErrors(found).intercept - 5.180701)).toBeLessThan(2e-5);
    expect(Math.abs(plainErrors(found).slope - 2.912134)).toBeLessThan(1e-5);
    expect(found.deviance).toBeCloseTo(11.232231, 6);
    expect(found.degrees).toBe(6);
    // The rest from R 4.2.2's glm on the same counts.
    expect(found.nullDeviance).toBeCloseTo(284.202449, 6);
    expect(-found.intercept / found.slope).toBeCloseTo(1.771721, 6);
    const counts = [3.46, 9.84, 22.45, 33.9, 50.1, 53.29, 59.22, 58.74];
    dose.forEach((x, at) => {
      const share = 1 / (1 + Math.exp(-found.intercept - found.slope * x));
      expect(share * (exposed[at] ?? 0)).toBeCloseTo(counts[at] ?? 0, 2);
    });
  });

  // Tobacco budworm: Collett; Venables and Ripley, MASS, chapter 7. Each sex alone in R; the printed
  // coefficients of the model sex * dose are those of the females.
  it("has the budworm fits of R, and the females' of MASS", () => {
    for (const { on, ...expected } of [r.budworm.males, r.budworm.females]) {
      const found = fitted(
        [0, 1, 2, 3, 4, 5],
        on,
        on.map((dead) => 20 - dead),
      );
      near(found.intercept, expected.intercept);
      near(found.slope, expected.slope);
      near(plainErrors(found).intercept, expected.interceptError);
      near(plainErrors(found).slope, expected.slopeError);
      near(found.deviance, expected.deviance);
      [0.25, 0.5, 0.75].forEach((share, at) => {
        const dose = (Math.log(share / (1 - share)) - found.intercept) / found.slope;
        near(dose, expected.doses[at] ?? 0);
        // The dose's error by the delta rule is the line's error at that dose over the slope; the
        // line's error is the intercept's once doses are counted from there.
        const counted = fitted(
          [0, 1, 2, 3, 4, 5].map((x) => x - dose),
          on,
          on.map((dead) => 20 - dead),
        );
        const error = plainErrors(counted).intercept / Math.abs(counted.slope);
        near(error, expected.doseErrors[at] ?? 0);
      });
    }
    const females = fitted([0, 1, 2, 3, 4, 5], [0, 2, 6, 10, 12, 16], [20, 18, 14, 10, 8, 4]);
    expect(females.intercept).toBeCloseTo(-2.993542, 6);
    expect(females.slope).toBeCloseTo(0.906036, 6);
  });

  // MASS, chapter 7, model sex + ldose - 1: sexF -3.473155, sexM -2.372412, ldose 1.064214, deviance
  // 6.757064; doses for females at 25, 50 and 75 %. One line through both sexes is that model once the
  // males' doses are moved by what sets the sexes apart. Its errors take that shift as known, so the
  // printed ones (.249909, .229754, .274687) cannot be had from it; those of each sex alone are above.
  it("has the doses of MASS for females at 25, 50 and 75 %", () => {
    const shift = (3.473155 - 2.372412) / 1.064214;
    const doses = [0, 1, 2, 3, 4, 5];
    const dead = [1, 4, 9, 13, 18, 20, 0, 2, 6, 10, 12, 16];
    const found = fitted(
      [...doses.map((x) => x + shift), ...doses],
      dead,
      dead.map((count) => 20 - count),
    );
    expect(found.intercept).toBeCloseTo(-3.473155, 5);
    expect(found.slope).toBeCloseTo(1.064214, 5);
    expect(found.deviance).toBeCloseTo(6.757064, 6);
    const expected: [number, number][] = [
      [0.25, 2.231265],
      [0.5, 3.263587],
      [0.75, 4.29591],
    ];
    for (const [share, dose] of expected) {
      const at = (Math.log(share / (1 - share)) - found.intercept) / found.slope;
      expect(at).toBeCloseTo(dose, 5);
    }
  });

  it(`has the quasi-binomial fits of ${r.source}, seed ${r.seed}`, () => {
    for (const item of r.quasi) {
      const found = fitted(item.time, item.on, item.off);
      expect(found.method).toBe("quasi-binomial");
      near(found.intercept, item.intercept);
      near(found.slope, item.slope);
      near(found.dispersion ?? 0, item.dispersion);
      near(found.deviance, item.deviance);
      near(found.nullDeviance, item.nullDeviance);
      near(plainErrors(found).intercept, item.plainInterceptError);
      near(plainErrors(found).slope, item.plainSlopeError);
    }
  });

  it("has Firth's estimate and profile interval as R's general optimisers find them", () => {
    for (const item of r.firth) {
      const found = fitted(item.time, item.on, item.off);
      expect(found.method).toBe("firth");
      near(found.intercept, item.intercept, 1e-5);
      near(found.slope, item.slope, 1e-5);
      near(found.interval.lower, item.lower, 1e-5);
      near(found.interval.upper, item.upper, 1e-5);
    }
  });
});
