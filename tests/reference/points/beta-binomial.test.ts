import { expect, it } from "vitest";
import { betaBinomial } from "../../../shared/points/beta-binomial.ts";
import { meanOf, varianceOf } from "../../../shared/points/distribution.ts";
import scipy from "../data/beta-binomial.json" with { type: "json" };

// scipy.stats.betabinom and binom; scripts/reference/beta-binomial.py.
it.each(scipy.cases)("beta-binomial n $n, q $q, rho $rho is SciPy's", (known) => {
  const chances = betaBinomial(known.n, known.q, known.rho);
  expect(chances.length).toBe(known.n + 1);
  for (const [value, chance] of known.chances.entries()) {
    expect(Math.abs((chances[value] ?? 0) - chance)).toBeLessThan(1e-10);
  }
  expect(meanOf(chances)).toBeCloseTo(known.mean, 9);
  expect(varianceOf(chances)).toBeCloseTo(known.variance, 9);
});
