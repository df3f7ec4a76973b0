import { describe, expect, it } from "vitest";
import { mannWhitney } from "../../../shared/statistics/mann-whitney.ts";
import stored from "../data/mann-whitney.json" with { type: "json" };

function must<R extends { kind: string }>(result: R): Extract<R, { kind: "computed" }> {
  if (result.kind !== "computed") throw new Error(JSON.stringify(result));
  return result as Extract<R, { kind: "computed" }>; // the guard above leaves nothing else
}

// scripts/reference/mann-whitney.py says which function gave what.
describe(`two-sided p of ${stored.source}, seed ${stored.seed}`, () => {
  it("exact without ties: mannwhitneyu", () => {
    for (const { a, b, u, p } of stored.untied) {
      const found = must(mannWhitney(a, b));
      expect(found).toMatchObject({ u, method: "exact" });
      expect(found.p, JSON.stringify({ a, b })).toBeCloseTo(p, 12);
    }
  });

  it("exact with ties: every partition in turn, permutation_test", () => {
    for (const { a, b, u, p } of stored.tied) {
      const found = must(mannWhitney(a, b));
      expect(found).toMatchObject({ u, method: "exact" });
      expect(found.p, JSON.stringify({ a, b })).toBeCloseTo(p, 12);
    }
  });

  it("normal for many points, with and without ties: mannwhitneyu", () => {
    for (const { a, b, u, p } of stored.large) {
      const found = must(mannWhitney(a, b));
      expect(found).toMatchObject({ u, method: "normal" });
      expect(Math.abs(found.p - p)).toBeLessThan(1e-12);
    }
  });
});

describe("Hollander & Wolfe (1973) p. 69f, data as in the help page of R's wilcox.test", () => {
  const x = [0.8, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46];
  const y = [1.15, 0.88, 0.9, 0.74, 1.21];

  it("W = 35, one-sided exact p = .1272; R 4.2.2 prints .2544 for both sides", () => {
    const found = must(mannWhitney(y, x));
    expect(found.u).toBe(35);
    expect(found.p / 2).toBeCloseTo(0.1272, 4);
    expect(found.p).toBeCloseTo(0.25441, 5);
  });
});

describe("phases without any overlap, counted by hand: two orders of all", () => {
  it.each([
    [3, 3, 2 / 20],
    [3, 4, 2 / 35],
    [4, 4, 2 / 70],
    [3, 5, 2 / 56],
  ])("%i points against %i", (m, n, p) => {
    const low = Array.from({ length: m }, (_, at) => at);
    const high = Array.from({ length: n }, (_, at) => 100 + at);
    expect(must(mannWhitney(low, high)).p).toBeCloseTo(p, 14);
    expect(must(mannWhitney(high, low)).p).toBeCloseTo(p, 14);
  });
});
