import { describe, expect, it } from "vitest";
import { randomStream } from "../../../shared/schedule/stream.ts";

// Names as sessions use them: the group's cues, two students' own, and who is looked at.
const names = ["cues", "cues/a", "cues/b", "spot-checks"] as const;
const pairs = names.flatMap((one, index) => names.slice(index + 1).map((other) => [one, other]));
const seeds = ["monday", "tuesday", "1", "2", "abc", "abd"];

/**
 * Critical values of Pearson's r, two-tailed, at the .001 level: six pairs over six seeds are looked at.
 * df = 100: .3211, as the usual printed table has it (read in question 389219 on stats.stackexchange.com).
 * df = 19 998: 3.2905 / sqrt(20 000), the large-sample form, computed.
 */
const samples = [
  { count: 102, critical: 0.3211 },
  { count: 20_000, critical: 3.2905 / Math.sqrt(20_000) },
] as const;

function correlation(one: readonly number[], other: readonly number[]): number {
  const mean = (values: readonly number[]) =>
    values.reduce((sum, value) => sum + value, 0) / values.length;
  const [oneMean, otherMean] = [mean(one), mean(other)];
  let [both, oneSquares, otherSquares] = [0, 0, 0];
  for (const [index, value] of one.entries()) {
    const [x, y] = [value - oneMean, (other[index] ?? 0) - otherMean];
    both += x * y;
    oneSquares += x * x;
    otherSquares += y * y;
  }
  return both / Math.sqrt(oneSquares * otherSquares);
}

function numbers(seed: string, name: string, count: number): number[] {
  const stream = randomStream(seed, name);
  return Array.from({ length: count }, stream);
}

describe.each(samples)("$count numbers", ({ count, critical }) => {
  it.each(pairs)("of %s and %s under one seed are uncorrelated", (one = "", other = "") => {
    for (const seed of seeds) {
      const r = correlation(numbers(seed, one, count), numbers(seed, other, count));
      expect(Math.abs(r)).toBeLessThan(critical);
    }
  });

  it("of a stream and its own next number are uncorrelated", () => {
    for (const name of names) {
      const drawn = numbers("monday", name, count + 1);
      expect(Math.abs(correlation(drawn.slice(0, count), drawn.slice(1)))).toBeLessThan(critical);
    }
  });
});

it("a stream is found out when it is another one with a little noise", () => {
  const cues = numbers("monday", "cues", 102);
  const noise = numbers("monday", "noise", 102);
  const alike = cues.map((value, index) => 0.4 * value + 0.6 * (noise[index] ?? 0));
  expect(correlation(cues, alike)).toBeGreaterThan(0.3211);
});
