import { describe, expect, it } from "vitest";
import { noRules } from "../../../../shared/plan/earning.ts";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import type { Recorder } from "../../../../shared/points/income.ts";
import {
  type PricedStudent,
  type PriceInputs,
  pricesFor,
} from "../../../../shared/points/planner.ts";

const strong: Recorder = {
  onTask: 0.8,
  answers: 0.95,
  designEffect: 1.6,
  checked: 0,
  matching: 0,
  items: 0,
};
const weak: Recorder = { ...strong, onTask: 0.3, answers: 0.8 };
const inputs: PriceInputs = {
  plan: firstPlan,
  rules: { ...noRules, on: 1 },
  students: [strong],
  sessions: 3,
  exchanges: 1,
  givenADay: 0,
};

describe("prices", () => {
  it("follow from the income: one exchange a day", () => {
    // Day of three sessions: Q10 17, Q50 22, mean 22.45. High: min(67, 5 (22 - 17)).
    const { bands, change } = pricesFor(inputs);
    expect(bands).toMatchObject({ low: 17, middle: 18, high: 25, promiseKept: true });
    expect(change).toBeNull();
  });

  it("are the weakest student's to pay", () => {
    const { bands } = pricesFor({ ...inputs, students: [strong, weak] });
    expect(bands.low).toBe(3);
  });

  it("no price promises the weakest child something after each session; recording would", () => {
    // One session in seven earns nothing by on-task marks alone.
    const each = { ...inputs, students: [weak], exchanges: 3 };
    const { bands, change } = pricesFor(each);
    expect(bands).toMatchObject({ low: 1, promiseKept: false });
    expect(bands.promise).toBeCloseTo(0.854, 3);
    expect(change).toEqual({ kind: "pay-for-recording" });
    expect(pricesFor({ ...each, rules: { ...noRules, mark: 1 } }).bands.low).toBe(5);
  });

  it("ask for more praise, then for denser cues, where recording pays already", () => {
    const silent = { ...weak, answers: 0.06, onTask: 0.5 };
    const rules = { ...noRules, mark: 1, on: 1 };
    const change = pricesFor({ ...inputs, rules, students: [silent], exchanges: 1 }).change;
    expect(change).toEqual({ kind: "give-more", pointsADay: 1 });
    const poor = { ...silent, answers: 0.001 };
    const last = pricesFor({ ...inputs, rules, students: [poor], exchanges: 3 }).change;
    expect(last).toEqual({ kind: "cheaper" });
  });

  it("know what the adult gives each student, and own goals", () => {
    const rules = { ...noRules, mark: 1, goal: 10, goalShare: 0.9 };
    const low = (student: Partial<PricedStudent>) =>
      pricesFor({ ...inputs, rules, students: [{ ...strong, ...student }] }).students[0]?.day
        .mean ?? 0;
    // Poisson with the mean of two points a day.
    expect(low({ givenADay: 2 }) - low({})).toBeCloseTo(2, 3);
    expect(low({ ownGoal: 0.5 })).toBeGreaterThan(low({}) + 15);
  });

  it("name no high band where it would mean saving for longer than a week", () => {
    const { bands } = pricesFor({
      ...inputs,
      students: [weak],
      rules: { ...noRules, mark: 1 },
      exchanges: 3,
    });
    expect(bands.high === null || bands.high > bands.middle).toBe(true);
    // Three exchanges of 5 use up most of a day's 24.
    expect(bands.low).toBe(5);
  });

  it("refuse half a session", () => {
    expect(() => pricesFor({ ...inputs, sessions: 0.5 })).toThrow(
      "sessions must be a whole number from 1 up; got 0.5.",
    );
  });
});
