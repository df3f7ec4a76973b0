import fc from "fast-check";
import { median } from "simple-statistics";
import { expect, it } from "vitest";
import { theilSen } from "../../../shared/statistics/theil-sen.ts";
import { timePoints } from "../../../shared/statistics/time-points.ts";

// A general statistics library from npm (simple-statistics 7.12.1) on random inputs: its median of all
// pairwise slopes, and of the values, against our selection that never lists them.
it("the Theil-Sen line is what a general library's medians give, on random inputs", () => {
  const points = fc.array(
    fc.record({ x: fc.integer({ min: 0, max: 60 }), y: fc.integer({ min: 0, max: 20 }) }),
    { minLength: 2, maxLength: 40 },
  );
  fc.assert(
    fc.property(points, (list) => {
      const slopes = list.flatMap((one, at) =>
        list.slice(at + 1).flatMap((other) => {
          return other.x === one.x ? [] : [(other.y - one.y) / (other.x - one.x)];
        }),
      );
      fc.pre(slopes.length > 0);
      const xs = list.map(({ x }) => x);
      const ys = list.map(({ y }) => y);
      const line = theilSen(timePoints(xs, ys));
      if (line.kind !== "enough") throw new Error("There are pairs, so there must be a line.");
      expect(line.slope).toBeCloseTo(median(slopes), 12);
      expect(line.intercept).toBeCloseTo(median(ys) - median(slopes) * median(xs), 9);
    }),
    { seed: 20261125, numRuns: 500 },
  );
});
