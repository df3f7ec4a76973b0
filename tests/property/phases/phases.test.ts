import fc from "fast-check";
import { expect, it } from "vitest";
import { dualCriterion } from "../../../shared/analysis/phases/dual-criterion.ts";
import { phaseSummary } from "../../../shared/analysis/phases/phase-summary.ts";
import { randomizationTest } from "../../../shared/analysis/phases/randomization-test.ts";
import { phaseKinds } from "../../../shared/phase/phase.ts";
import { fairCoinUpperTail } from "../../../shared/statistics/exact/fair-coin.ts";
import { nap } from "../../../shared/statistics/nap.ts";
import { countPairs } from "../../../shared/statistics/pair-counts.ts";
import { tau } from "../../../shared/statistics/tau.ts";

/** Rates of sessions with few marks: ties, noughts and ones are common. */
const rate = fc
  .tuple(fc.integer({ min: 0, max: 8 }), fc.constantFrom(4, 5, 8))
  .map(([on, cues]) => {
    return Math.min(on, cues) / cues;
  });
const phase = fc.array(rate, { minLength: 1, maxLength: 20 });

function numbersIn(result: unknown): number[] {
  if (typeof result === "number") return [result];
  if (typeof result !== "object" || result === null) return [];
  return Object.values(result).flatMap(numbersIn);
}

function must<R extends { kind: string }>(result: R): Extract<R, { kind: "computed" }> {
  if (result.kind !== "computed") throw new Error(JSON.stringify(result));
  return result as Extract<R, { kind: "computed" }>; // the guard above leaves nothing else
}

it("a summary of any phases, empty ones too, holds no NaN and no infinity", () => {
  const series = fc.record({
    kind: fc.constantFrom(...phaseKinds),
    label: fc.string(),
    source: fc.constantFrom("self", "observer"),
    points: fc.array(fc.record({ day: fc.integer({ min: 0, max: 60 }), value: rate })),
  });
  fc.assert(
    fc.property(fc.array(series, { maxLength: 4 }), (phases) => {
      const draw = { permittedDays: [3, 10, 20], day: 10 };
      expect(numbersIn(phaseSummary(phases, draw)).every(Number.isFinite)).toBe(true);
    }),
  );
});

it("pairs are counted as by comparing each with each; NAP is U over them", () => {
  fc.assert(
    fc.property(phase, phase, (a, b) => {
      const signs = a.flatMap((x) => b.map((y) => Math.sign(y - x)));
      const counts = countPairs(a, b);
      expect(counts.higher).toBe(signs.filter((sign) => sign > 0).length);
      expect(counts.tied).toBe(signs.filter((sign) => sign === 0).length);
      expect(counts.lower).toBe(signs.filter((sign) => sign < 0).length);
      const u = counts.higher + counts.tied / 2;
      expect(must(nap(a, b)).value).toBeCloseTo(u / (a.length * b.length), 12);
    }),
  );
});

it("NAP and its interval are ordered within 0 to 1; tau is 2 NAP - 1", () => {
  fc.assert(
    fc.property(phase, phase, (a, b) => {
      const { value, interval } = must(nap(a, b));
      expect(interval.lower).toBeGreaterThanOrEqual(0);
      expect(interval.lower).toBeLessThanOrEqual(value + 1e-12);
      expect(interval.upper).toBeGreaterThanOrEqual(value - 1e-12);
      expect(interval.upper).toBeLessThanOrEqual(1);
      expect(must(tau(a, b)).value).toBeCloseTo(2 * value - 1, 12);
    }),
  );
});

it("exchanging the phases turns NAP and its interval over", () => {
  fc.assert(
    fc.property(phase, phase, (a, b) => {
      const one = must(nap(a, b));
      const other = must(nap(b, a));
      expect(other.value).toBeCloseTo(1 - one.value, 12);
      expect(other.interval.lower).toBeCloseTo(1 - one.interval.upper, 9);
      expect(other.interval.upper).toBeCloseTo(1 - one.interval.lower, 9);
    }),
  );
});

it("NAP does not change under a rising transformation", () => {
  fc.assert(
    fc.property(phase, phase, (a, b) => {
      const rising = (x: number) => 3 + 2 * x ** 3;
      expect(must(nap(a.map(rising), b.map(rising))).value).toBe(must(nap(a, b)).value);
    }),
  );
});

it("a wider confidence gives a wider interval", () => {
  fc.assert(
    fc.property(phase, phase, (a, b) => {
      const narrow = must(nap(a, b, 0.8)).interval;
      const wide = must(nap(a, b, 0.99)).interval;
      expect(wide.lower).toBeLessThanOrEqual(narrow.lower + 1e-12);
      expect(wide.upper).toBeGreaterThanOrEqual(narrow.upper - 1e-12);
    }),
  );
});

it("dual-criterion counts do not change when all points are shifted and stretched", () => {
  const whole = fc.integer({ min: 0, max: 10 });
  const longer = fc.array(whole, { minLength: 3, maxLength: 12 });
  fc.assert(
    fc.property(longer, longer, (a, b) => {
      const moved = (values: number[]) => values.map((value) => 40 + 4 * value);
      const one = must(dualCriterion(a, b));
      const other = must(dualCriterion(moved(a), moved(b)));
      expect(other.dual.above).toBe(one.dual.above);
      expect(other.conservative.above).toBe(one.conservative.above);
      expect(one.conservative.above).toBeLessThanOrEqual(one.dual.above);
    }),
  );
});

it("a randomization probability is between one over the permitted days and 1, and counts itself", () => {
  const values = fc.array(rate, { minLength: 8, maxLength: 20 });
  fc.assert(
    fc.property(values, fc.integer({ min: 3, max: 6 }), (list, start) => {
      const points = list.map((value, day) => ({ day, value }));
      const { probability, twoSidedProbability } = must(
        randomizationTest(points, [3, 4, 5, 6], start),
      );
      expect(probability).toBeGreaterThanOrEqual(0.25);
      expect(twoSidedProbability).toBeGreaterThanOrEqual(0.25);
      expect(Math.max(probability, twoSidedProbability)).toBeLessThanOrEqual(1);
    }),
  );
});

it("a randomization test rejects no more often than its level when the start is drawn", () => {
  // For any data, over all permitted starts at most a share k/4 has probability at most k/4.
  const values = fc.array(rate, { minLength: 8, maxLength: 20 });
  fc.assert(
    fc.property(values, (list) => {
      const points = list.map((value, day) => ({ day, value }));
      const starts = [3, 4, 5, 6];
      const all = starts.map((start) => must(randomizationTest(points, starts, start)).probability);
      for (const level of [0.25, 0.5, 0.75]) {
        expect(all.filter((p) => p <= level).length / 4).toBeLessThanOrEqual(level);
      }
    }),
  );
});

it("a fair coin's tails add up to 1 and fall as heads rise", () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 400 }), fc.nat(), (tosses, seed) => {
      const heads = seed % (tosses + 1);
      const tail = fairCoinUpperTail(heads, tosses);
      expect(tail + fairCoinUpperTail(tosses - heads + 1, tosses)).toBeCloseTo(1, 10);
      expect(fairCoinUpperTail(heads + 1, tosses)).toBeLessThanOrEqual(tail);
    }),
  );
});
