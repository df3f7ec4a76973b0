import { expect, it } from "vitest";
import { daySpread } from "../../../shared/analysis/day-spread.ts";
import { randomStream } from "../../../shared/schedule/stream.ts";

const sessions = (...list: [on: number, marks: number][]) =>
  list.map(([on, marks]) => ({ on, off: marks - on, missing: 0 }));

// R 4.2.2, the single marks by session: anova(lm(mark ~ session)), then (MSB - MSW) / n0 with
// n0 = (N - sum(n^2) / N) / (k - 1). Variances .0215292647 and .1627777778; together by 6 and 4 degrees.
const uneven = sessions([7, 10], [4, 8], [9, 10], [6, 9], [8, 12], [2, 7], [5, 5]);
const wild = sessions([1, 10], [9, 10], [2, 10], [10, 10], [3, 10]);

it("is R's analysis of variance, for one student and for two together", () => {
  expect(daySpread([uneven])).toBeCloseTo(Math.sqrt(0.0215292647), 8);
  expect(daySpread([wild])).toBeCloseTo(0.4034572812, 9);
  expect(daySpread([uneven, wild])).toBeCloseTo(0.2793361236, 9);
});

it("is 0 for sessions more alike than chance, and null for fewer than five", () => {
  expect(daySpread([sessions([7, 10], [7, 10], [7, 10], [7, 10], [7, 10])])).toBe(0);
  expect(daySpread([uneven.slice(0, 4)])).toBeNull();
  expect(daySpread([[...uneven.slice(0, 4), { on: 0, off: 0, missing: 9 }]])).toBeNull();
  expect(daySpread([])).toBeNull();
});

it("comes near the true spread of days", () => {
  // Rates spread evenly over .5 to .9: standard deviation .4 / sqrt(12) = .1155.
  const draw = randomStream("day-spread", "days");
  const students = Array.from({ length: 60 }, () =>
    Array.from({ length: 20 }, () => {
      const rate = 0.5 + 0.4 * draw();
      const on = Array.from({ length: 10 }, draw).filter((u) => u < rate).length;
      return { on, off: 10 - on, missing: 0 };
    }),
  );
  expect(Math.abs((daySpread(students) ?? 0) - 0.1155)).toBeLessThan(0.01);
});
