import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { balancedBlockSize } from "../../../shared/schedule/balanced.ts";
import type { LawSettings } from "../../../shared/schedule/interval-law.ts";
import { planLaw } from "../../../shared/schedule/plan-law.ts";
import { randomStream } from "../../../shared/schedule/stream.ts";

const free = fc
  .record({
    shortestGapSeconds: fc.double({ min: 0, max: 300, noNaN: true }),
    above: fc.double({ min: 0.5, max: 900, noNaN: true }),
  })
  .map(({ shortestGapSeconds, above }) => ({
    shortestGapSeconds,
    meanSeconds: shortestGapSeconds + above,
    longestGapSeconds: null,
  }));

/** A longest gap from the least possible one, where the law is uniform, to twenty times farther. */
const cut = fc
  .tuple(free, fc.double({ min: 1, max: 20, noNaN: true }))
  .map(([settings, reach]) => ({
    ...settings,
    longestGapSeconds:
      settings.shortestGapSeconds +
      2 * reach * (settings.meanSeconds - settings.shortestGapSeconds),
  }));

const laws = [
  { name: "exponential", law: "exponential", settings: free },
  { name: "cut exponential", law: "exponential", settings: cut },
  { name: "uniform", law: "uniform", settings: free },
  { name: "balanced", law: "balanced", settings: free },
  { name: "cut balanced", law: "balanced", settings: cut },
  { name: "fixed", law: "fixed", settings: free },
] as const;

function someGaps(law: (typeof laws)[number]["law"], settings: LawSettings, seed: string) {
  const next = planLaw({ ...settings, law }).gaps(randomStream(seed, "cues"));
  return Array.from({ length: 100 }, next);
}

describe.each(laws)("$name intervals", ({ law, settings }) => {
  it("stay within their bounds", () => {
    fc.assert(
      fc.property(settings, fc.string(), (chosen, seed) => {
        const longest = chosen.longestGapSeconds ?? Number.POSITIVE_INFINITY;
        for (const gap of someGaps(law, chosen, seed)) {
          expect(gap).toBeGreaterThanOrEqual(chosen.shortestGapSeconds);
          expect(gap).toBeLessThanOrEqual(longest * (1 + 1e-12));
        }
      }),
    );
  });

  it("are the same for the same seed and stream", () => {
    fc.assert(
      fc.property(settings, fc.string(), (chosen, seed) => {
        expect(someGaps(law, chosen, seed)).toEqual(someGaps(law, chosen, seed));
      }),
    );
  });

  it("have a survival function that falls from 1 to 0 between shortest and longest", () => {
    fc.assert(
      fc.property(settings, (chosen) => {
        const { survival, shortestSeconds, longestSeconds, meanSeconds } = planLaw({
          ...chosen,
          law,
        });
        expect(survival(shortestSeconds - 1e-6)).toBe(1);
        const end = Math.min(longestSeconds, 60 * meanSeconds);
        let before = 1;
        for (let step = 0; step <= 50; step++) {
          const now = survival((end * step) / 50);
          expect(now).toBeLessThanOrEqual(before + 1e-12);
          expect(now).toBeGreaterThanOrEqual(0);
          before = now;
        }
        expect(survival(end)).toBeLessThan(1e-9);
      }),
    );
  });

  it("have the chosen mean: the area under the survival function", () => {
    fc.assert(
      fc.property(settings, (chosen) => {
        const made = planLaw({ ...chosen, law });
        const end = Math.min(made.longestSeconds, 40 * chosen.meanSeconds);
        const steps = 20_000;
        let area = 0;
        for (let step = 0; step < steps; step++)
          area += made.survival(((step + 0.5) * end) / steps);
        // Midpoints of a curve that may jump: one step's width is the most they can miss a jump by.
        const most = law === "exponential" ? 1e-4 * chosen.meanSeconds : end / steps;
        expect(Math.abs((area * end) / steps - chosen.meanSeconds)).toBeLessThanOrEqual(
          most * 1.01,
        );
      }),
      { numRuns: 40 },
    );
  });

  it("decay as their survival function says", () => {
    // E e^(-rG) = 1 - r * integral of e^(-rx) S(x), by parts.
    fc.assert(
      fc.property(settings, fc.double({ min: 0.01, max: 5, noNaN: true }), (chosen, share) => {
        const made = planLaw({ ...chosen, law });
        const rate = share / chosen.meanSeconds;
        const end = Math.min(made.longestSeconds, 40 * chosen.meanSeconds);
        const steps = 20_000;
        let area = 0;
        for (let step = 0; step < steps; step++) {
          const at = ((step + 0.5) * end) / steps;
          area += Math.exp(-rate * at) * made.survival(at);
        }
        const byParts = 1 - (rate * area * end) / steps;
        expect(Math.abs(made.expectedDecay(rate) - byParts)).toBeLessThan(0.01);
        expect(made.expectedDecay(0)).toBeCloseTo(1, 12);
      }),
      { numRuns: 40 },
    );
  });

  it("refuse a mean that is not above the shortest gap", () => {
    fc.assert(
      fc.property(settings, fc.double({ min: 0, max: 1, noNaN: true }), (chosen, share) => {
        const meanSeconds = chosen.shortestGapSeconds * share;
        expect(() => planLaw({ ...chosen, meanSeconds, law })).toThrow(RangeError);
      }),
    );
  });
});

describe("balanced intervals", () => {
  it.each([
    ["without", free],
    ["with", cut],
  ])("%s a longest gap realise the mean exactly in every block", (_, settings) => {
    fc.assert(
      fc.property(settings, fc.string(), (chosen, seed) => {
        const gaps = someGaps("balanced", chosen, seed);
        for (let start = 0; start + balancedBlockSize <= gaps.length; start += balancedBlockSize) {
          const block = gaps.slice(start, start + balancedBlockSize);
          const mean = block.reduce((sum, gap) => sum + gap, 0) / balancedBlockSize;
          expect(Math.abs(mean / chosen.meanSeconds - 1)).toBeLessThan(1e-9);
        }
      }),
    );
  });

  it("come in a fresh order from block to block, each term once a block", () => {
    fc.assert(
      fc.property(free, fc.string(), (chosen, seed) => {
        const gaps = someGaps("balanced", chosen, seed);
        const sorted = (from: number) =>
          gaps.slice(from, from + balancedBlockSize).sort((one, other) => one - other);
        expect(sorted(balancedBlockSize)).toEqual(sorted(0));
        expect(gaps.slice(0, 24)).not.toEqual([...gaps.slice(12, 24), ...gaps.slice(0, 12)]);
      }),
    );
  });
});

describe("streams", () => {
  it("of one seed do not depend on each other", () => {
    fc.assert(
      fc.property(fc.string(), fc.nat({ max: 50 }), (seed, draws) => {
        const alone = randomStream(seed, "cues");
        const expected = [alone(), alone(), alone()];
        const other = randomStream(seed, "spot-checks");
        for (let draw = 0; draw < draws; draw++) other();
        const beside = randomStream(seed, "cues");
        expect(
          [beside(), other(), beside(), other(), beside()].filter((_, i) => i % 2 === 0),
        ).toEqual(expected);
      }),
    );
  });

  it("of different names or seeds give different numbers", () => {
    fc.assert(
      fc.property(fc.uuid(), fc.uuid(), (one, other) => {
        fc.pre(one !== other);
        expect(randomStream(one, "cues")()).not.toBe(randomStream(other, "cues")());
        expect(randomStream(one, "cues")()).not.toBe(randomStream(one, "teams")());
      }),
    );
  });
});
