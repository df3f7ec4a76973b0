import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sortCountingInversions } from "../../../shared/statistics/inversions.ts";
import { exactUpperTail, kendall } from "../../../shared/statistics/kendall.ts";
import { mannKendall } from "../../../shared/statistics/mann-kendall.ts";
import { middleRanks, selectSlopes } from "../../../shared/statistics/slope-selection.ts";
import { theilSen } from "../../../shared/statistics/theil-sen.ts";
import { timePoints } from "../../../shared/statistics/time-points.ts";

interface XY {
  x: number;
  y: number;
}

/** Whole days and whole values: many ties in both. */
const coarse = fc.record({ x: fc.integer({ min: 0, max: 30 }), y: fc.integer({ min: 0, max: 8 }) });
/** Whole days and rates of few marks. */
const rates = fc.record({
  x: fc.integer({ min: 0, max: 400 }),
  y: fc.tuple(fc.integer({ min: 0, max: 7 }), fc.constant(7)).map(([on, n]) => on / n),
});
/** Any values at any times, of which no two differ by less than a hundredth. */
const smooth = fc
  .array(
    fc.record({
      gap: fc.oneof(fc.constant(0), fc.double({ min: 0.01, max: 9, noNaN: true })),
      y: fc.double({ min: -1000, max: 1000, noNaN: true }),
    }),
    { minLength: 2, maxLength: 60 },
  )
  .map((list) => {
    let x = 0;
    return list.map(({ gap, y }) => {
      x += gap;
      return { x, y };
    });
  });

const pointsOf = (list: XY[]) =>
  timePoints(
    list.map(({ x }) => x),
    list.map(({ y }) => y),
  );

/** All slopes by looking at all pairs. */
function everySlope({ x, y }: { x: Float64Array; y: Float64Array }): number[] {
  const slopes: number[] = [];
  for (let i = 0; i < x.length; i += 1) {
    for (let j = i + 1; j < x.length; j += 1) {
      const dx = (x[j] ?? 0) - (x[i] ?? 0);
      if (dx > 0) slopes.push(((y[j] ?? 0) - (y[i] ?? 0)) / dx);
    }
  }
  return slopes.sort((a, b) => a - b);
}

type Points = ReturnType<typeof pointsOf>;
type Settings = Parameters<typeof selectSlopes>[3];

const selectSlope = (points: Points, pairs: number, rank: number, settings?: Settings): number =>
  selectSlopes(points, pairs, [rank], settings)[0] ?? Number.NaN;

/** Narrow down to very few slopes before listing, so that small inputs take the long road too. */
const hurried = { listAtMost: 4, sample: 16 };

describe("choosing a slope by rank", () => {
  it.each([
    ["whole numbers", coarse],
    ["rates on whole days", rates],
  ])("is exactly the one of the sorted list: %s", (_kind, point) => {
    fc.assert(
      fc.property(
        fc.array(point, { minLength: 2, maxLength: 60 }),
        fc.nat(1_000_000),
        (list, r) => {
          const points = pointsOf(list);
          const slopes = everySlope(points);
          fc.pre(slopes.length > 0);
          const rank = r % slopes.length;
          const chosen = selectSlope(points, slopes.length, rank, hurried);
          // Equal fractions such as 3/7 - 1/7 and 2/7 differ in the last digit; whole numbers do not.
          if (point === coarse) expect(chosen + 0).toBe((slopes[rank] ?? 0) + 0);
          else expect(Math.abs(chosen - (slopes[rank] ?? 0))).toBeLessThan(1e-12);
          // Several at once, in any order, with repeats.
          const ranks = [...middleRanks(slopes.length), slopes.length - 1, rank, 0];
          selectSlopes(points, slopes.length, ranks, hurried).forEach((slope, at) => {
            expect(Math.abs(slope - (slopes[ranks[at] ?? 0] ?? 0))).toBeLessThan(1e-12);
          });
        },
      ),
      { numRuns: 600 },
    );
  });

  it("is right up to rounding for any numbers", () => {
    fc.assert(
      fc.property(smooth, fc.nat(1_000_000), (list, r) => {
        const points = pointsOf(list);
        const slopes = everySlope(points);
        fc.pre(slopes.length > 0);
        const rank = r % slopes.length;
        const expected = slopes[rank] ?? 0;
        const chosen = selectSlope(points, slopes.length, rank, hurried);
        expect(Math.abs(chosen - expected)).toBeLessThan(1e-8 * (1 + Math.abs(expected)));
      }),
      { numRuns: 400 },
    );
  });

  it("is the same by the long road and the usual one on a thousand sessions", () => {
    fc.assert(
      fc.property(fc.array(coarse, { minLength: 200, maxLength: 1000 }), (list) => {
        const points = pointsOf(list);
        const slopes = everySlope(points);
        for (const rank of [0, 1, slopes.length >> 2, slopes.length >> 1, slopes.length - 1]) {
          expect(selectSlope(points, slopes.length, rank) + 0).toBe((slopes[rank] ?? 0) + 0);
        }
      }),
      { numRuns: 10 },
    );
  });
});

describe("Kendall's S", () => {
  it("is what counting all pairs gives, with tau within -1 and 1", () => {
    fc.assert(
      fc.property(fc.array(coarse, { maxLength: 60 }), (list) => {
        const points = pointsOf(list);
        const found = kendall(points);
        const slopes = everySlope(points);
        expect(found.pairs).toBe(slopes.length);
        expect(found.s + 0).toBe(slopes.reduce((sum, slope) => sum + Math.sign(slope), 0) + 0);
        expect(Math.abs(found.tau)).toBeLessThanOrEqual(1);
        expect(found.variance).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  it("only depends on order: growing transforms change nothing, mirroring turns it over", () => {
    fc.assert(
      fc.property(fc.array(coarse, { minLength: 2, maxLength: 40 }), (list) => {
        const before = mannKendall(pointsOf(list));
        const stretched = pointsOf(list.map(({ x, y }) => ({ x: 3 * x + 5, y: y ** 3 })));
        expect(mannKendall(stretched)).toEqual(before);
        const mirrored = mannKendall(pointsOf(list.map(({ x, y }) => ({ x, y: -y }))));
        expect(mirrored.s + before.s).toBe(0);
        expect(mirrored.p).toBe(before.p);
      }),
    );
  });

  it("does not depend on the order in which points are given", () => {
    fc.assert(
      fc.property(
        fc
          .array(coarse, { minLength: 2, maxLength: 40 })
          .chain((list) =>
            fc.tuple(
              fc.constant(list),
              fc.shuffledSubarray(list, { minLength: list.length, maxLength: list.length }),
            ),
          ),
        ([list, shuffled]) => {
          expect(mannKendall(pointsOf(shuffled))).toEqual(mannKendall(pointsOf(list)));
          expect(theilSen(pointsOf(shuffled))).toEqual(theilSen(pointsOf(list)));
        },
      ),
    );
  });

  it("has an exact distribution that is symmetric and sums to 1", () => {
    for (const n of [2, 3, 4, 7, 12, 30, 50]) {
      const most = (n * (n - 1)) / 2;
      for (let s = -most; s <= most; s += Math.max(2, 2 * Math.floor(most / 20))) {
        expect(exactUpperTail(n, s) + exactUpperTail(n, -s + 2)).toBeCloseTo(1, 10);
      }
      expect(exactUpperTail(n, -most)).toBeCloseTo(1, 10);
    }
  });
});

describe("the Theil-Sen line", () => {
  it("moves with the data: adding a line adds its slope, mirroring turns the interval over", () => {
    fc.assert(
      fc.property(fc.array(coarse, { minLength: 3, maxLength: 50 }), fc.integer(), (list, more) => {
        const tilt = more % 10;
        const plain = theilSen(pointsOf(list));
        if (plain.kind === "not-enough") return;
        const { interval } = plain;
        expect(interval.lower).toBeLessThanOrEqual(plain.slope);
        expect(interval.upper).toBeGreaterThanOrEqual(plain.slope);
        const mirrored = theilSen(pointsOf(list.map(({ x, y }) => ({ x, y: -y }))));
        if (mirrored.kind === "not-enough") throw new Error("mirroring loses no points");
        expect(mirrored.slope + plain.slope).toBeCloseTo(0, 12);
        expect(mirrored.interval.lower + interval.upper).toBeCloseTo(0, 12);
        const tilted = theilSen(pointsOf(list.map(({ x, y }) => ({ x, y: y + tilt * x }))));
        if (tilted.kind === "not-enough") throw new Error("tilting loses no points");
        expect(tilted.slope).toBeCloseTo(plain.slope + tilt, 9);
      }),
    );
  });

  it("widens with the factor for serial correlation", () => {
    fc.assert(
      fc.property(
        fc.array(coarse, { minLength: 5, maxLength: 50 }),
        fc.double({ min: 1, max: 9, noNaN: true }),
        (list, varianceFactor) => {
          const plain = theilSen(pointsOf(list));
          const wider = theilSen(pointsOf(list), { varianceFactor });
          if (plain.kind === "not-enough" || wider.kind === "not-enough") return;
          expect(wider.interval.lower).toBeLessThanOrEqual(plain.interval.lower);
          expect(wider.interval.upper).toBeGreaterThanOrEqual(plain.interval.upper);
        },
      ),
    );
  });
});

describe("counting inversions", () => {
  it("sorts stably, counts as all pairs do, and hands out the inversions asked for", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 20 }), { maxLength: 70 }), (values) => {
        const keys = Float64Array.from(values);
        const places = Int32Array.from(values, (_, at) => at);
        const expected = new Set<string>();
        values.forEach((value, i) => {
          values.slice(i + 1).forEach((later, k) => {
            if (value > later) expected.add(`${i} ${i + 1 + k}`);
          });
        });
        const found = new Set<string>();
        const wanted = Float64Array.from({ length: expected.size }, (_, at) => at);
        const sorted = sortCountingInversions(places, keys, wanted, (before, after) =>
          found.add(`${before} ${after}`),
        );
        expect(sorted.inversions).toBe(expected.size);
        expect(found).toEqual(expected);
        expect([...sorted.order]).toEqual(
          [...places].sort((a, b) => (keys[a] ?? 0) - (keys[b] ?? 0) || a - b),
        );
      }),
    );
  });
});
