import { createRequire } from "node:module";
import { describe, expect, it } from "vitest";
import { chanceOfAtLeast } from "../../../shared/schedule/cue-count.ts";
import { cutSteepness, exponential } from "../../../shared/schedule/exponential.ts";
import type { IntervalLaw } from "../../../shared/schedule/interval-law.ts";
import { uniform } from "../../../shared/schedule/uniform.ts";

// jstat has no types of its own; these are the functions used here.
const { jStat }: { jStat: Second } = createRequire(import.meta.url)("jstat");
interface Second {
  exponential: { cdf(x: number, rate: number): number };
  poisson: { cdf(k: number, mean: number): number; pdf(k: number, mean: number): number };
  gamma: { cdf(x: number, shape: number, scale: number): number };
}

const free = { shortestGapSeconds: 0, longestGapSeconds: null };

/** The interval a law gives for one random number. */
function quantile(law: IntervalLaw, u: number): number {
  return law.gaps(() => u)();
}

/** Mean and standard deviation by midpoints of a million quantiles. */
function moments(law: IntervalLaw): { mean: number; spread: number } {
  const count = 1_000_000;
  let sum = 0;
  let squares = 0;
  for (let index = 0; index < count; index++) {
    const gap = quantile(law, (index + 0.5) / count);
    sum += gap;
    squares += gap * gap;
  }
  return { mean: sum / count, spread: Math.sqrt(squares / count - (sum / count) ** 2) };
}

describe("exponential intervals", () => {
  const minute = exponential({ meanSeconds: 60, ...free });

  // Quantiles for mean 60 s computed with scipy.
  it.each([
    [0.05, 3.0776],
    [0.1, 6.3216],
    [0.25, 17.2609],
    [0.5, 41.5888],
    [0.75, 83.1777],
    [0.9, 138.1551],
    [0.95, 179.7439],
    [0.99, 276.3102],
  ])("have %f of them below %f s at a mean of a minute", (share, seconds) => {
    expect(quantile(minute, share)).toBeCloseTo(seconds, 4);
  });

  // Textbook: P(X > m) = 1/e.
  it("outlast their mean with the textbook chance", () => {
    expect(minute.survival(60)).toBeCloseTo(0.367879, 6);
  });

  // Textbook: no memory, P(X > s + t | X > s) = P(X > t).
  it("have no memory once the shortest gap is over", () => {
    const law = exponential({ ...free, meanSeconds: 120, shortestGapSeconds: 20 });
    for (const waited of [20, 50, 200, 900]) {
      expect(law.survival(waited + 30) / law.survival(waited)).toBeCloseTo(Math.exp(-30 / 100), 12);
    }
  });

  it("agree with jstat", () => {
    for (const seconds of [0.5, 12, 60, 333]) {
      const second = 1 - jStat.exponential.cdf(seconds, 1 / 60);
      expect(minute.survival(seconds)).toBeCloseTo(second, 12);
    }
  });
});

describe("cut exponential intervals", () => {
  // Means, standard deviations and medians by scale: closed forms that agree with scipy's truncexpon.
  // The law is asked for the mean; the scale must come out.
  it.each([
    { scale: 60, from: 0, to: 120, mean: 41.217883, spread: 31.5179, median: 33.97315 },
    { scale: 60, from: 15, to: 120, mean: 52.916136, spread: 28.169082, median: 46.975382 },
    { scale: 45, from: 10, to: 90, mean: 38.728903, spread: 21.414098, median: 34.16442 },
    { scale: 60, from: 10, to: 180, mean: 59.376354, spread: 41.001444, median: 48.159726 },
    { scale: 1, from: 0, to: 1, mean: 0.418023, spread: 0.281649, median: 0.379885 },
  ])("of scale $scale on $from to $to are found from their mean", (row) => {
    // The printed mean has 6 decimals; near the uniform limit that leaves 5 digits of the scale.
    expect((row.to - row.from) / cutSteepness(row.mean, row.from, row.to)).toBeCloseTo(
      row.scale,
      3,
    );
    const law = exponential({
      meanSeconds: row.mean,
      shortestGapSeconds: row.from,
      longestGapSeconds: row.to,
    });
    expect(quantile(law, 0.5)).toBeCloseTo(row.median, 4);
    expect(moments(law).spread).toBeCloseTo(row.spread, 4);
  });

  // Computed with scipy 1.17.1: brentq for the scale, truncexpon for the rest.
  it.each([
    {
      mean: 120,
      from: 20,
      to: 300,
      scale: 155.097834781,
      spread: 74.7808345602,
      quantiles: [33.53324093, 103.8957354, 236.26902374],
    },
    {
      mean: 60,
      from: 15,
      to: 120,
      scale: 120.989374095,
      spread: 29.7516283348,
      quantiles: [22.2309723, 56.45000542, 104.34058153],
    },
    {
      mean: 60,
      from: 10,
      to: 180,
      scale: 61.3560144778,
      spread: 41.29260208,
      quantiles: [16.03909673, 48.80229296, 123.85362378],
    },
    {
      mean: 30,
      from: 0,
      to: 1000,
      scale: 30,
      spread: 29.9999999999,
      quantiles: [3.16081547, 20.79441542, 69.07755279],
    },
  ])("with mean $mean on $from to $to agree with scipy", (row) => {
    const law = exponential({
      meanSeconds: row.mean,
      shortestGapSeconds: row.from,
      longestGapSeconds: row.to,
    });
    expect((row.to - row.from) / cutSteepness(row.mean, row.from, row.to)).toBeCloseTo(
      row.scale,
      7,
    );
    const [low, middle, high] = [0.1, 0.5, 0.9].map((share) => quantile(law, share));
    expect(low).toBeCloseTo(row.quantiles[0] ?? 0, 6);
    expect(middle).toBeCloseTo(row.quantiles[1] ?? 0, 6);
    expect(high).toBeCloseTo(row.quantiles[2] ?? 0, 6);
    expect(moments(law).spread).toBeCloseTo(row.spread, 3);
  });

  // The closed-form mean a + scale - d q / (1 - q) is the textbook's, not the code's.
  it("have the chosen mean to one part in a billion", () => {
    for (const [mean, from, to] of [
      [120, 20, 300],
      [120, 20, 221],
      [60, 0, 600],
      [45, 5, 90],
      [600, 20, 10_000],
    ] as const) {
      const width = to - from;
      const scale = width / cutSteepness(mean, from, to);
      const q = Math.exp(-width / scale);
      const closedForm = from + scale - (width * q) / (1 - q);
      expect(Math.abs(closedForm / mean - 1)).toBeLessThan(1e-9);
    }
  });

  it("are the uniform law when the mean is the middle, and refuse a later one", () => {
    const cut = { meanSeconds: 60, shortestGapSeconds: 20, longestGapSeconds: 100 };
    const even = uniform({ ...cut, longestGapSeconds: null });
    for (const share of [0, 0.2, 0.7, 0.99]) {
      expect(quantile(exponential(cut), share)).toBeCloseTo(quantile(even, share), 9);
    }
    expect(() => exponential({ ...cut, longestGapSeconds: 99 })).toThrow(RangeError);
  });
});

describe("uniform intervals", () => {
  // Textbook: mean (a + b) / 2, variance (b - a)^2 / 12; for 15 to 105 s: 60 and 25.980762.
  it("have the textbook mean and spread", () => {
    const law = uniform({ meanSeconds: 60, shortestGapSeconds: 15, longestGapSeconds: null });
    expect(law.longestSeconds).toBe(105);
    expect(moments(law).mean).toBeCloseTo(60, 6);
    expect(moments(law).spread).toBeCloseTo(25.980762, 5);
  });
});

describe("the number of cues in a session", () => {
  const twentyMinutes = {
    law: "exponential",
    ...free,
    meanSeconds: 60,
    lengthSeconds: 1200,
    leadInSeconds: 0,
    endMarginSeconds: 0,
  } as const;

  // Poisson with mean 20, computed with scipy.
  it.each([
    [10, 0.010812],
    [15, 0.156513],
    [25, 0.887815],
    [30, 0.986525],
  ])("is at most %i with the Poisson chance", (count, chance) => {
    expect(1 - chanceOfAtLeast(twentyMinutes, count + 1)).toBeCloseTo(chance, 6);
    expect(1 - chanceOfAtLeast(twentyMinutes, count + 1)).toBeCloseTo(
      jStat.poisson.cdf(count, 20),
      9,
    );
  });

  // P(N = 20) for a Poisson count with mean 20, computed with scipy.
  it("is just the expected number with the Poisson chance", () => {
    const chance = chanceOfAtLeast(twentyMinutes, 20) - chanceOfAtLeast(twentyMinutes, 21);
    expect(chance).toBeCloseTo(0.088835, 6);
    expect(chance).toBeCloseTo(jStat.poisson.pdf(20, 20), 9);
  });

  // With a shortest gap, n cues need n gaps and a gamma-distributed rest; computed with scipy's gamma.
  it.each([
    [6, 0.95774483],
    [9, 0.68924414],
    [10, 0.54207029],
    [12, 0.25875898],
  ])("reaches %i with the gamma chance when cues keep apart", (count, chance) => {
    const plan = { ...twentyMinutes, meanSeconds: 120, shortestGapSeconds: 20 };
    expect(chanceOfAtLeast(plan, count)).toBeCloseTo(chance, 7);
    expect(chanceOfAtLeast(plan, count)).toBeCloseTo(
      jStat.gamma.cdf(1200 - 20 * count, count, 100),
      7,
    );
  });

  // Irwin-Hall: the sum of n uniforms on 0..1 stays below x with chance (1/n!) sum (-1)^k C(n,k) (x-k)^n.
  it("follows the Irwin-Hall distribution under uniform intervals", () => {
    const plan = { ...twentyMinutes, law: "uniform", meanSeconds: 150 } as const;
    const choose = (n: number, k: number): number =>
      k === 0 ? 1 : (choose(n, k - 1) * (n - k + 1)) / k;
    const factorial = (n: number): number => (n <= 1 ? 1 : n * factorial(n - 1));
    const irwinHall = (n: number, x: number) => {
      let sum = 0;
      for (let k = 0; k <= Math.min(n, Math.floor(x)); k++)
        sum += (-1) ** k * choose(n, k) * (x - k) ** n;
      return sum / factorial(n);
    };
    for (const count of [5, 6, 7, 8, 9, 10, 11]) {
      expect(Math.abs(chanceOfAtLeast(plan, count) - irwinHall(count, 4))).toBeLessThan(0.001);
    }

    // However narrow: the same sum after a shortest gap of 98 % of the mean, in room for ten means.
    const narrow = { ...plan, meanSeconds: 120, shortestGapSeconds: 117.6 };
    for (const [lengthSeconds, x] of [
      [1195.2, 4],
      [1200, 5],
      [1204.8, 6],
    ] as const) {
      const chance = chanceOfAtLeast({ ...narrow, lengthSeconds }, 10);
      expect(Math.abs(chance - irwinHall(10, x))).toBeLessThan(0.001);
    }
  });

  // A cut exponential is an exponential less its own tail, shifted; so the chance of a sum is
  // (1-q)^-n sum (-1)^k C(n,k) q^k Gamma(n, scale)(x - k width), here with jstat's gamma. Scale from scipy.
  it("follows the alternating gamma sum under cut exponential intervals, few or many", () => {
    const scale = 155.097834781;
    const width = 280;
    const q = Math.exp(-width / scale);
    const exact = (count: number, room: number) => {
      let sum = 0;
      let choose = 1;
      for (let k = 0; k <= count && room - 20 * count - k * width > 0; k++) {
        const tail = jStat.gamma.cdf(room - 20 * count - k * width, count, scale);
        sum += (-1) ** k * choose * q ** k * tail;
        choose *= (count - k) / (k + 1);
      }
      return sum / (1 - q) ** count;
    };
    const plan = {
      ...twentyMinutes,
      meanSeconds: 120,
      shortestGapSeconds: 20,
      longestGapSeconds: 300,
    };
    for (const count of [3, 5, 8, 10, 12, 20, 30]) {
      for (const lengthSeconds of [110, 120, 130].map((mean) => mean * count)) {
        const chance = chanceOfAtLeast({ ...plan, lengthSeconds }, count);
        expect(Math.abs(chance - exact(count, lengthSeconds))).toBeLessThan(0.001);
      }
    }
  });

  // Where both ways can be taken, 40 intervals folded and 41 summed by their moments, they join.
  it("has no step between few and many intervals", () => {
    for (const law of ["uniform", "exponential"] as const) {
      for (const longestGapSeconds of [220, 300, 900]) {
        const plan = { ...twentyMinutes, law, meanSeconds: 120, shortestGapSeconds: 20 };
        const atItsMean = [38, 39, 40, 41, 42, 43].map((count) =>
          chanceOfAtLeast({ ...plan, longestGapSeconds, lengthSeconds: 120 * count }, count),
        );
        for (const [index, chance] of atItsMean.entries()) {
          expect(Math.abs(chance - (atItsMean[index - 1] ?? chance))).toBeLessThan(0.001);
        }
      }
    }
  });
});
