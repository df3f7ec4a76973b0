import fc from "fast-check";
import { expect, it } from "vitest";
import { summariseTable } from "../../../shared/agreement/agreement-summary.ts";
import { checkStanding } from "../../../shared/agreement/check-step.ts";
import { correctedRate } from "../../../shared/agreement/corrected-rate.ts";
import { cohenKappa } from "../../../shared/agreement/kappa.ts";
import { matchReading } from "../../../shared/agreement/match-reading.ts";
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
      expect(result.standardError ?? 0).toBeGreaterThanOrEqual(0);
    }),
  );
});

it("a record that is all alike never matches and never lets checks thin, whatever was seen", () => {
  fc.assert(
    fc.property(count, count, fc.boolean(), (seenOn, seenOff, saysOn) => {
      const table = saysOn ? twoByTwoOf(seenOn, seenOff, 0, 0) : twoByTwoOf(0, 0, seenOn, seenOff);
      const { match, next } = matchReading(table);
      expect(["cannot-tell", "low"]).toContain(match);
      expect(next).not.toBe("let-checks-thin");
    }),
  );
});

it("a record that is on at every cue never thins the checks, session after session", () => {
  const session = fc.record({ seenOn: count, seenOff: fc.integer({ min: 0, max: 9 }) });
  fc.assert(
    fc.property(fc.array(session, { maxLength: 30 }), (seen) => {
      const sessions = seen.map(({ seenOn, seenOff }) => ({
        compared: seenOn + seenOff,
        matching: seenOn,
        seenOn,
      }));
      expect(checkStanding(sessions).every).toBe(1);
    }),
  );
});

it("one more check that matches never makes a match low that was not", () => {
  fc.assert(
    fc.property(cells, fc.boolean(), ([a, b, c, d], on) => {
      if (matchReading(twoByTwoOf(a, b, c, d)).match === "low") return;
      if (a + b + c + d < 10) return;
      const more = on ? twoByTwoOf(a + 1, b, c, d) : twoByTwoOf(a, b, c, d + 1);
      expect(matchReading(more).match).not.toBe("low");
    }),
  );
});

it("a corrected rate lies within its interval, and both within 0 to 1", () => {
  fc.assert(
    fc.property(cells, count, count, ([a, b, c, d], on, off) => {
      const found = correctedRate(twoByTwoOf(a, b, c, d), { on, off });
      if (found.kind === "not-computable") return;
      const { value: rate, interval } = found;
      expect(interval.lower).toBeGreaterThanOrEqual(0);
      expect(interval.lower).toBeLessThanOrEqual(rate);
      expect(interval.upper).toBeGreaterThanOrEqual(rate);
      expect(interval.upper).toBeLessThanOrEqual(1);
      expect(interval.upper).toBeGreaterThan(interval.lower);
    }),
  );
});
