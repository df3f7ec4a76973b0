import { describe, expect, it } from "vitest";
import { noRules } from "../../../shared/plan/earning.ts";
import { firstPlan } from "../../../shared/plan/plan.ts";
import {
  chanceOf,
  dayIncome,
  markCorrelation,
  type Recorder,
  sessionIncome,
} from "../../../shared/points/income.ts";
import { keptCounts } from "../../../shared/schedule/kept-counts.ts";
import { sessionSchedule } from "../../../shared/schedule/session-schedule.ts";
import { randomStream } from "../../../shared/schedule/stream.ts";

const counts = keptCounts(firstPlan);
const recorder = (onTask: number, answers: number): Recorder => ({
  onTask,
  answers,
  designEffect: 1.6,
  checked: 0,
  matching: 0,
  items: 0,
});
const perOn = { ...noRules, on: 1 };
const perMark = { ...noRules, mark: 1 };

// Values computed independently for this project, by SciPy's beta-binomial mixed over the exact number of
// cues of the first plan: E[N] = 9.8473, Var N = 6.8583; phi = 1.6.
const known = [
  {
    p: 0.8,
    a: 0.95,
    mean: 7.484,
    variance: 6.92,
    q: [4, 11],
    none: 0.001,
    two: 0.995,
    day: [22.45, 17, 22, 28],
  },
  {
    p: 0.5,
    a: 0.9,
    mean: 4.431,
    variance: 5.403,
    q: [2, 8],
    none: 0.021,
    two: 0.91,
    day: [13.29, 8, 13, 19],
  },
  {
    p: 0.3,
    a: 0.8,
    mean: 2.363,
    variance: 3.354,
    q: [0, 5],
    none: 0.146,
    two: 0.628,
    day: [7.09, 3, 7, 11],
  },
];

describe("points of a session and of a day of three", () => {
  it("rest on the number of cues of the first plan", () => {
    const mean = counts.reduce((sum, { cues, chance }) => sum + cues * chance, 0);
    const variance = counts.reduce((sum, { cues, chance }) => sum + (cues - mean) ** 2 * chance, 0);
    expect(mean).toBeCloseTo(9.8473, 3);
    expect(variance).toBeCloseTo(6.8583, 3);
  });

  it.each(known)("for on-task marks, p $p, a $a", ({ p, a, mean, variance, q, none, two, day }) => {
    const income = sessionIncome(counts, perOn, recorder(p, a));
    expect(Math.abs(income.mean - mean)).toBeLessThan(6e-4);
    expect(Math.abs(income.variance - variance)).toBeLessThan(6e-4);
    expect([income.quantiles.q10, income.quantiles.q90]).toEqual(q);
    expect(Math.abs((income.chances[0] ?? 0) - none)).toBeLessThan(6e-4);
    expect(Math.abs(chanceOf(income, 2) - two)).toBeLessThan(6e-4);
    const { mean: ofDay, quantiles } = dayIncome(income, 3, 0);
    expect(Math.abs(ofDay - (day[0] ?? 0))).toBeLessThan(6e-3);
    expect([quantiles.q10, quantiles.q50, quantiles.q90]).toEqual(day.slice(1));
  });

  it.each(known)("agree with the closed form, p $p, a $a", ({ p, a }) => {
    const { mean, variance } = sessionIncome(counts, perOn, recorder(p, a));
    const expected = counts.reduce((sum, { cues, chance }) => sum + cues * chance, 0);
    const spread = counts.reduce(
      (sum, { cues, chance }) => sum + chance * (cues - expected) ** 2,
      0,
    );
    const rho = markCorrelation(1.6, counts);
    const q = a * p;
    const within = counts.reduce(
      (sum, { cues, chance }) => sum + chance * cues * q * (1 - q) * (1 + (cues - 1) * rho),
      0,
    );
    expect(mean).toBeCloseTo(q * expected, 3);
    expect(variance).toBeCloseTo(within + q * q * spread, 3);
  });

  it("for each recorded mark, alike or independent", () => {
    const alike = sessionIncome(counts, perMark, recorder(0.3, 0.8));
    expect(alike.mean).toBeCloseTo(7.88, 2);
    expect(alike.quantiles.q10).toBe(5);
    expect(chanceOf(alike, 2)).toBeCloseTo(0.997, 4);
    const independent = sessionIncome(counts, perMark, { ...recorder(0.3, 0.8), designEffect: 1 });
    expect(chanceOf(independent, 2)).toBeCloseTo(0.9987, 4);
  });

  it("for both, have the mean of their sum and the on-task marks' own chances", () => {
    const both = sessionIncome(counts, { ...noRules, mark: 1, on: 1 }, recorder(0.5, 0.9));
    expect(both.mean).toBeCloseTo(9.8473 * 0.9 * 1.5, 3);
    // Rules of worth nothing but a goal nobody can miss: the joint chances, folded to on-task marks.
    const joint = sessionIncome(
      counts,
      { ...noRules, on: 1, goal: 1, goalShare: 1 },
      { ...recorder(0.5, 0.9), designEffect: 1.6 },
    );
    const plain = sessionIncome(counts, perOn, recorder(0.5, 0.9));
    expect(joint.chances[1]).toBeCloseTo(plain.chances[1] ?? 0, 9);
  });

  it("are what schedules drawn from seeds pay, urn by urn", () => {
    const stream = randomStream("harbour", "income");
    const { onTask, answers } = recorder(0.5, 0.9);
    const r = markCorrelation(1.6, counts) / (1 - markCorrelation(1.6, counts));
    const sums = Array.from({ length: 4000 }, (_, at) => {
      const { cues } = sessionSchedule(firstPlan, `harbour ${at}`);
      let [on, seen] = [0, 0];
      for (const _cue of cues) {
        const chance = (onTask * answers + on * r) / (1 + seen * r);
        if (stream() < chance) on++;
        seen++;
      }
      return on;
    }).sort((first, second) => first - second);
    const income = sessionIncome(counts, perOn, recorder(0.5, 0.9));
    const mean = sums.reduce((sum, each) => sum + each, 0) / sums.length;
    // Four standard errors.
    expect(Math.abs(mean - income.mean)).toBeLessThan(4 * Math.sqrt(income.variance / sums.length));
    expect(sums[400]).toBe(income.quantiles.q10);
    expect(sums[3600]).toBe(income.quantiles.q90);
  });

  // The usual rule, at a share of 0.15 checked: a point for each recorded mark, one more for on task, and 7
  // for a match. A mark is recorded by the urn, checked and matching by itself, as in a room.
  it("are what a day of marks and matches pays, mark by mark: mean, Q10, Q50 and Q90", () => {
    const stream = randomStream("harbour", "marks and matches");
    const student = { ...recorder(0.5, 0.8), checked: 0.15, matching: 0.85 };
    const rules = { ...noRules, mark: 1, match: 7 };
    const r = markCorrelation(1.6, counts) / (1 - markCorrelation(1.6, counts));
    const session = (seed: string): number => {
      let [recorded, seen, points] = [0, 0, 0];
      for (const _cue of sessionSchedule(firstPlan, seed).cues) {
        const isRecorded = stream() < (student.answers + recorded * r) / (1 + seen * r);
        const matches = stream() < student.checked * student.matching;
        if (isRecorded) {
          recorded++;
          points += rules.mark + (matches ? rules.match : 0);
        }
        seen++;
      }
      return points;
    };
    const days = Array.from({ length: 3000 }, (_, at) =>
      [0, 1, 2].reduce((sum, each) => sum + session(`day ${at} ${each}`), 0),
    );
    const income = dayIncome(sessionIncome(counts, rules, student), 3, 0);
    const mean = days.reduce((sum, each) => sum + each, 0) / days.length;
    expect(Math.abs(mean - income.mean)).toBeLessThan(4 * Math.sqrt(income.variance / days.length));
    for (const [level, quantile] of [
      [0.1, income.quantiles.q10],
      [0.5, income.quantiles.q50],
      [0.9, income.quantiles.q90],
    ] as const) {
      const below = days.filter((each) => each < quantile).length / days.length;
      const upTo = days.filter((each) => each <= quantile).length / days.length;
      const error = 4 * Math.sqrt((level * (1 - level)) / days.length);
      expect(below).toBeLessThan(level + error);
      expect(upTo).toBeGreaterThan(level - error);
    }
  });
});
