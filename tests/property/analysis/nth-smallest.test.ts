import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { nthSmallest } from "../../../shared/statistics/nth-smallest.ts";
import { slopeSelector } from "../../../shared/statistics/slope-selection.ts";
import { timePoints } from "../../../shared/statistics/time-points.ts";

/** Few different values, so that many are equal, or any. */
const values = fc.oneof(
  fc.array(fc.integer({ min: 0, max: 4 }), { minLength: 1, maxLength: 300 }),
  fc.array(fc.double({ noNaN: true }), { minLength: 1, maxLength: 300 }),
);

describe("the value of a rank", () => {
  it("is the one at that place of the platform's sorted list, however often it is asked", () => {
    fc.assert(
      fc.property(values, fc.array(fc.nat(), { minLength: 1, maxLength: 6 }), (list, asked) => {
        const sorted = Float64Array.from(list).sort();
        const mixed = Float64Array.from(list);
        for (const number of asked) {
          const rank = number % list.length;
          expect(nthSmallest(mixed, rank) + 0).toBe((sorted[rank] ?? 0) + 0);
        }
        expect(mixed.sort()).toEqual(sorted);
      }),
    );
  });

  it("is refused outside the list", () => {
    expect(() => nthSmallest(Float64Array.of(1, 2), 2)).toThrow(/got 2/);
    expect(() => nthSmallest(Float64Array.of(), 0)).toThrow(/got 0/);
  });
});

describe("slopes of ranks that were not announced", () => {
  it("are those of the sorted list of all slopes", () => {
    const point = fc.record({
      x: fc.integer({ min: 0, max: 60 }),
      y: fc.integer({ min: 0, max: 8 }),
    });
    fc.assert(
      fc.property(
        fc.array(point, { minLength: 20, maxLength: 80 }),
        fc.array(fc.nat(), { minLength: 1, maxLength: 6 }),
        (list, asked) => {
          const { x, y } = timePoints(
            list.map((point) => point.x),
            list.map((point) => point.y),
          );
          const slopes: number[] = [];
          x.forEach((time, i) => {
            x.forEach((later, j) => {
              if (later > time) slopes.push(((y[j] ?? 0) - (y[i] ?? 0)) / (later - time));
            });
          });
          fc.pre(slopes.length > 0);
          slopes.sort((a, b) => a - b);
          // Narrow down to very few slopes, and only around the middle at first.
          const near = [slopes.length >> 1];
          const slopeAt = slopeSelector({ x, y }, slopes.length, near, {
            listAtMost: 4,
            sample: 16,
          });
          for (const number of asked) {
            const rank = number % slopes.length;
            expect(slopeAt(rank) + 0).toBe((slopes[rank] ?? 0) + 0);
          }
        },
      ),
    );
  });
});
