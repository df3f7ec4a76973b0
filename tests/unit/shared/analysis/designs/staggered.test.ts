import { describe, expect, it } from "vitest";
import { simulateRecord } from "../../../../../shared/analysis/calibration/simulate-record.ts";
import { multipleBaselineStanding } from "../../../../../shared/analysis/designs/multiple-baseline-standard.ts";
import {
  type StaggeredCase,
  staggeredTest,
} from "../../../../../shared/analysis/designs/staggered-test.ts";
import { randomStream } from "../../../../../shared/schedule/stream.ts";

const step = (start: number, length: number, permitted: readonly number[]): StaggeredCase => ({
  points: Array.from({ length }, (_, day) => ({ day, value: day < start ? 0.4 : 0.8 })),
  permittedDays: permitted,
  day: start,
});

describe("the test of staggered drawn starts", () => {
  it("gives one way in all where each start shows at its own day", () => {
    const found = staggeredTest([
      step(5, 20, [4, 5, 6]),
      step(8, 20, [7, 8, 9]),
      step(11, 20, [10, 11, 12]),
    ]);
    expect(found).toMatchObject({ kind: "computed", ways: 27, cases: 3 });
    if (found.kind !== "computed") throw new Error();
    expect(found.probability).toBeCloseTo(1 / 27, 12);
    expect(found.twoSidedProbability).toBeCloseTo(1 / 27, 12);
    expect(found.difference).toBeCloseTo(0.4, 12);
  });

  it("counts the ways as going through all of them does", () => {
    const draw = randomStream("staggered", "all");
    for (let trial = 0; trial < 20; trial += 1) {
      const cases = [0, 1, 2, 3].map((at): StaggeredCase => {
        const permitted = [4, 5, 6, 7].map((day) => day + 2 * at);
        return {
          points: Array.from({ length: 24 }, (_, day) => ({
            day,
            value: Math.floor(draw() * 11) / 10,
          })),
          permittedDays: permitted,
          day: permitted[Math.floor(draw() * 4)] ?? 4,
        };
      });
      const found = staggeredTest(cases);
      if (found.kind !== "computed") throw new Error(found.reason);
      const { upward, either } = byHand(cases);
      expect(found.probability).toBeCloseTo(upward, 12);
      expect(found.twoSidedProbability).toBeCloseTo(either, 12);
    }
  });

  it("is wrong in at most one of twenty steady classes, whose neighbours are alike", () => {
    const draw = randomStream("staggered", "steady");
    let shown = 0;
    const trials = 1_000;
    for (let trial = 0; trial < trials; trial += 1) {
      const found = staggeredTest(
        [0, 1, 2].map((at): StaggeredCase => {
          const record = simulateRecord(
            { sessions: 30, cues: 10, rate: () => 0.6, r: 0.3, perWeek: 7 },
            draw,
          );
          const permitted = [0, 1, 2, 3, 4].map((day) => 5 + 5 * at + day);
          return {
            points: record.map(({ on }, day) => ({ day, value: on / 10 })),
            permittedDays: permitted,
            day: permitted[Math.floor(draw() * 5)] ?? 0,
          };
        }),
      );
      if (found.kind === "computed" && found.probability <= 0.05) shown += 1;
    }
    // Two standard errors over 5 %; an exact test is never above it in the long run.
    expect(shown / trials).toBeLessThan(0.064);
    expect(shown / trials).toBeGreaterThan(0.03);
  });

  it("says why there is none", () => {
    expect(staggeredTest([])).toMatchObject({ reason: "nothing-drawn" });
    expect(staggeredTest([step(5, 20, [6, 7])])).toMatchObject({ reason: "start-not-permitted" });
    expect(staggeredTest([step(5, 6, [5, 6])])).toMatchObject({
      reason: "start-leaves-phase-empty",
    });
    expect(staggeredTest([step(5, 20, [5])])).toMatchObject({ reason: "nothing-drawn" });
    const days = Array.from({ length: 60 }, (_, day) => day + 1);
    const many = Array.from({ length: 8 }, () => step(5, 80, days));
    expect(staggeredTest(many)).toMatchObject({ reason: "too-many-ways" });
    expect(staggeredTest(many.slice(0, 6))).toMatchObject({ kind: "computed", ways: 60 ** 6 });
  });
});

function byHand(cases: readonly StaggeredCase[]) {
  const mean = (values: readonly number[]) =>
    values.reduce((sum, value) => sum + value, 0) / values.length;
  const differenceOf = ({ points }: StaggeredCase, start: number) =>
    mean(points.filter(({ day }) => day >= start).map(({ value }) => value)) -
    mean(points.filter(({ day }) => day < start).map(({ value }) => value));
  const seen = cases.reduce((sum, each) => sum + differenceOf(each, each.day), 0);
  const sums = cases.reduce<number[]>(
    (all, each) =>
      all.flatMap((sum) => each.permittedDays.map((start) => sum + differenceOf(each, start))),
    [0],
  );
  const share = (is: (sum: number) => boolean) => sums.filter(is).length / sums.length;
  return {
    upward: share((sum) => sum >= seen - 1e-9),
    either: share((sum) => Math.abs(sum) >= Math.abs(seen) - 1e-9),
  };
}

describe("the standard for a multiple baseline", () => {
  const cases = (points: number, starts: readonly number[]) =>
    starts.map((start) => ({ start, before: points, after: points + 2 }));

  it("asks for six phases, three starts and five points", () => {
    expect(multipleBaselineStanding(cases(5, [1, 2, 3])).standard).toBe("meets");
    expect(multipleBaselineStanding(cases(3, [1, 2, 3])).standard).toBe("with-reservations");
    expect(multipleBaselineStanding(cases(2, [1, 2, 3])).standard).toBe("does-not-meet");
    expect(multipleBaselineStanding(cases(9, [1, 2])).standard).toBe("does-not-meet");
    expect(multipleBaselineStanding(cases(9, [1, 1, 2])).standard).toBe("does-not-meet");
  });
});
