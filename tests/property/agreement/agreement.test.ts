import fc from "fast-check";
import { expect, it } from "vitest";
import { summariseTable } from "../../../shared/agreement/agreement-summary.ts";
import { cohenKappa } from "../../../shared/agreement/kappa.ts";
import { twoByTwo, twoByTwoOf } from "../../../shared/agreement/two-by-two.ts";

const count = fc.integer({ min: 0, max: 60 });
const cells = fc.tuple(count, count, count, count);
const value = fc.constantFrom("on", "off", "none", "unseen") satisfies fc.Arbitrary<string>;

/** Every number anywhere in a result. */
function numbersIn(result: unknown): number[] {
  if (typeof result === "number") return [result];
  if (typeof result !== "object" || result === null) return [];
  return Object.values(result).flatMap(numbersIn);
}

it("never holds NaN or infinity, whatever the counts", () => {
  fc.assert(
    fc.property(cells, ([a, b, c, d]) => {
      expect(numbersIn(summariseTable(twoByTwoOf(a, b, c, d))).every(Number.isFinite)).toBe(true);
    }),
  );
});

it("every pair is compared or left out, none twice", () => {
  fc.assert(
    fc.property(fc.array(fc.record({ first: value, second: value })), (pairs) => {
      const { compared, leftOut } = twoByTwo(pairs);
      const { firstBlank, secondBlank, bothBlank } = leftOut;
      expect(compared + firstBlank + secondBlank + bothBlank).toBe(pairs.length);
    }),
  );
});

it("exchanging the records keeps agreement and kappa, and turns bias and direction over", () => {
  const turned = {
    "first-says-on-more": "second-says-on-more",
    "second-says-on-more": "first-says-on-more",
    "no-clear-direction": "no-clear-direction",
    "too-few-disagreements": "too-few-disagreements",
  } as const;
  fc.assert(
    fc.property(cells, ([a, b, c, d]) => {
      const one = summariseTable(twoByTwoOf(a, b, c, d));
      const other = summariseTable(twoByTwoOf(a, c, b, d));
      expect(other.percent).toEqual(one.percent);
      expect(other.occurrence).toEqual(one.occurrence);
      expect(other.mcNemar.probability).toBe(one.mcNemar.probability);
      expect(other.mcNemar.direction).toBe(turned[one.mcNemar.direction]);
      if (one.kappa.kind === "computed" && other.kappa.kind === "computed")
        expect(other.kappa.value).toBeCloseTo(one.kappa.value, 12);
      if (one.indices.kind === "computed" && other.indices.kind === "computed")
        expect(other.indices.bias).toBeCloseTo(-one.indices.bias, 12);
    }),
  );
});

it("naming on and off the other way round exchanges occurrence and non-occurrence", () => {
  fc.assert(
    fc.property(cells, ([a, b, c, d]) => {
      const one = summariseTable(twoByTwoOf(a, b, c, d));
      const other = summariseTable(twoByTwoOf(d, c, b, a));
      if (one.occurrence.kind === "computed") expect(other.nonOccurrence).toEqual(one.occurrence);
      if (one.kappa.kind === "computed" && other.kappa.kind === "computed")
        expect(other.kappa.value).toBeCloseTo(one.kappa.value, 12);
    }),
  );
});

it("occurrence and non-occurrence never exceed percent agreement", () => {
  fc.assert(
    fc.property(cells, ([a, b, c, d]) => {
      const { percent, occurrence, nonOccurrence } = summariseTable(twoByTwoOf(a, b, c, d));
      if (percent.kind !== "computed") return;
      for (const part of [occurrence, nonOccurrence])
        if (part.kind === "computed") expect(part.value).toBeLessThanOrEqual(percent.value);
    }),
  );
});

it("kappa of any table is at most the greatest its margins allow, and at most 1", () => {
  const table = fc
    .integer({ min: 2, max: 5 })
    .chain((k) =>
      fc.array(fc.array(count, { minLength: k, maxLength: k }), { minLength: k, maxLength: k }),
    );
  fc.assert(
    fc.property(table, (counts) => {
      const result = cohenKappa(counts);
      if (result.kind === "not-computable") return;
      expect(result.value).toBeGreaterThanOrEqual(-1 - 1e-12);
      expect(result.value).toBeLessThanOrEqual(result.greatestPossible + 1e-12);
      expect(result.greatestPossible).toBeLessThanOrEqual(1 + 1e-12);
      expect(result.standardError).toBeGreaterThanOrEqual(0);
    }),
  );
});
