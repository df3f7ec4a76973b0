import { describe, expect, it } from "vitest";
import { balancedTerms, fleshlerHoffman } from "../../../shared/schedule/balanced.ts";

// Source of the formula: Fleshler & Hoffman (1962), J Exp Anal Behav 5:529-530.
describe("the balanced progression", () => {
  it.each([
    // The article's own example, mean 30 s and N = 12, as printed to 3 decimals in an R package's
    // vignette on stat.ethz.ch.
    {
      mean: 30,
      terms: [
        1.286, 4.017, 7.022, 10.363, 14.122, 18.423, 23.446, 29.487, 37.067, 47.261, 62.958,
        104.547,
      ],
    },
    // Computed from the published formula in Python.
    {
      mean: 60,
      terms: [3.105, 9.786, 17.305, 25.906, 35.953, 48.034, 63.195, 83.583, 114.977, 198.155],
    },
    {
      mean: 60,
      terms: [
        2.572, 8.035, 14.045, 20.725, 28.245, 36.846, 46.892, 58.974, 74.134, 94.522, 125.917,
        209.094,
      ],
    },
    { mean: 60, terms: [6.446, 21.606, 41.994, 73.389, 156.566] },
    {
      mean: 60,
      terms: [
        1.526, 4.685, 8.02, 11.551, 15.304, 19.307, 23.596, 28.216, 33.222, 38.684, 44.694, 51.375,
        58.894, 67.495, 77.542, 89.623, 104.784, 125.171, 156.566, 239.744,
      ],
    },
  ])("is the published one for mean $mean s and $terms.length terms", ({ mean, terms }) => {
    const ours = fleshlerHoffman(mean, terms.length);
    expect(ours.map((term) => Math.round(term * 1000) / 1000)).toEqual(terms);
    expect(ours.reduce((sum, term) => sum + term, 0)).toBeCloseTo(mean * terms.length, 9);
  });

  // Computed in Python from the formula: population standard deviations for mean 60 s.
  it.each([
    [10, 56.693],
    [12, 57.254],
    [20, 58.363],
  ])("with %i terms spreads by %f s", (count, spread) => {
    const terms = fleshlerHoffman(60, count);
    const variance = terms.reduce((sum, term) => sum + (term - 60) ** 2, 0) / count;
    expect(Math.sqrt(variance)).toBeCloseTo(spread, 3);
  });

  it("has the published largest and smallest term", () => {
    const terms = fleshlerHoffman(30, 12);
    expect(terms[11]).toBeCloseTo(30 * (1 + Math.log(12)), 10);
    expect(terms[0]).toBeCloseTo(
      30 * (1 + Math.log(12) + 11 * Math.log(11) - 12 * Math.log(12)),
      10,
    );
  });

  it("approaches the published terms as a longest gap moves away", () => {
    const far = balancedTerms({ meanSeconds: 30, shortestGapSeconds: 0, longestGapSeconds: 3000 });
    const published = fleshlerHoffman(30, 12);
    for (const [index, term] of far.entries()) expect(term).toBeCloseTo(published[index] ?? 0, 6);
  });
});
