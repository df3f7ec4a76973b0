import { describe, expect, it } from "vitest";
import { exponential } from "../../../shared/schedule/exponential.ts";
import type { IntervalLaw } from "../../../shared/schedule/interval-law.ts";
import { randomStream } from "../../../shared/schedule/stream.ts";
import { uniform } from "../../../shared/schedule/uniform.ts";

// Critical values at the 1 % level. Chi-square with 19 degrees of freedom: 36.191, computed with scipy.
const chiSquare19 = 36.191;
// Kolmogorov-Smirnov, two-sided, fully specified law, by number of intervals: exact, computed with scipy.
const kolmogorov = [
  [5, 0.66853],
  [10, 0.48893],
  [20, 0.35241],
  [30, 0.28986],
  [50, 0.22604],
  [100, 0.16081],
] as const;
// The same for large samples: 1.62762 / sqrt(n), computed with scipy.
const kolmogorovLarge = 1.62762;

interface Case {
  readonly name: string;
  readonly law: IntervalLaw;
  /** The textbook's share of intervals below x, written out here, independent of the code under test. */
  readonly below: (x: number) => number;
}

const plainExponential: Case = {
  name: "exponential",
  law: exponential({ meanSeconds: 120, shortestGapSeconds: 20, longestGapSeconds: null }),
  below: (x) => 1 - Math.exp(-(x - 20) / 100),
};

const cases: Case[] = [
  plainExponential,
  {
    name: "cut exponential",
    law: exponential({ meanSeconds: 120, shortestGapSeconds: 20, longestGapSeconds: 300 }),
    // Scale 155.097834781 from scipy's root finder.
    below: (x) => (1 - Math.exp(-(x - 20) / 155.097834781)) / (1 - Math.exp(-280 / 155.097834781)),
  },
  {
    name: "uniform",
    law: uniform({ meanSeconds: 120, shortestGapSeconds: 20, longestGapSeconds: null }),
    below: (x) => (x - 20) / 200,
  },
];

function drawn(law: IntervalLaw, count: number, seed: string): number[] {
  const next = law.gaps(randomStream(seed, "cues"));
  return Array.from({ length: count }, next);
}

function kolmogorovDistance(sample: readonly number[], below: (x: number) => number): number {
  const sorted = [...sample].sort((one, other) => one - other);
  return Math.max(
    ...sorted.map((x, index) =>
      Math.max(
        Math.abs(below(x) - index / sorted.length),
        Math.abs(below(x) - (index + 1) / sorted.length),
      ),
    ),
  );
}

function chiSquareOfTwentieths(sample: readonly number[], below: (x: number) => number): number {
  const counts = new Array<number>(20).fill(0);
  for (const x of sample) {
    const cell = Math.min(19, Math.floor(below(x) * 20));
    counts[cell] = (counts[cell] ?? 0) + 1;
  }
  const expected = sample.length / 20;
  return counts.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
}

describe.each(cases)("$name intervals from fixed seeds", ({ law, below }) => {
  it("fit their law by chi-square over twentieths", () => {
    expect(chiSquareOfTwentieths(drawn(law, 20_000, "chi-square"), below)).toBeLessThan(
      chiSquare19,
    );
  });

  it.each(kolmogorov)("fit their law by Kolmogorov-Smirnov, %i of them", (count, critical) => {
    expect(kolmogorovDistance(drawn(law, count, "hundred"), below)).toBeLessThan(critical);
  });

  it("fit their law by Kolmogorov-Smirnov, fifty thousand of them", () => {
    const many = 50_000;
    expect(kolmogorovDistance(drawn(law, many, "many"), below)).toBeLessThan(
      kolmogorovLarge / Math.sqrt(many),
    );
  });

  it("would not pass for a law with a mean two percent off", () => {
    const off = (x: number) => below(20 + (x - 20) / 1.02);
    expect(kolmogorovDistance(drawn(law, 50_000, "many"), off)).toBeGreaterThan(
      kolmogorovLarge / Math.sqrt(50_000),
    );
  });
});

describe("the test itself", () => {
  // Source: the same exact table. At the 1 % level one sample in a hundred lies farther than the value.
  it.each([
    ...kolmogorov.map(([count, critical]) => [count, critical] as const),
    // The large-sample constant c in c / sqrt(n), where n is large enough for it.
    [1000, kolmogorovLarge / Math.sqrt(1000)] as const,
  ])("throws out one true sample of %i in a hundred", (count, critical) => {
    const { law, below } = plainExponential;
    const samples = 2000;
    let far = 0;
    for (let index = 0; index < samples; index++) {
      const sample = drawn(law, count, `far-${index}`);
      if (kolmogorovDistance(sample, below) > critical) far += 1;
    }
    // Three standard errors of a share of .01 over 2000 samples.
    expect(Math.abs(far / samples - 0.01)).toBeLessThan(3 * Math.sqrt((0.01 * 0.99) / samples));
  });

  // Source: T. Ferguson's page on the distribution prints P(D_100 <= 0.1) = .74731; so of many samples of
  // 100 about a quarter should lie farther than 0.1.
  it("finds the published share of samples near their law", () => {
    const { law, below } = plainExponential;
    const samples = 4000;
    let near = 0;
    for (let index = 0; index < samples; index++) {
      if (kolmogorovDistance(drawn(law, 100, `near-${index}`), below) <= 0.1) near += 1;
    }
    // Three standard errors of a share of .74731 over 4000 samples.
    expect(Math.abs(near / samples - 0.74731)).toBeLessThan(
      3 * Math.sqrt((0.74731 * 0.25269) / samples),
    );
  });
});
