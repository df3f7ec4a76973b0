import { describe, expect, it } from "vitest";
import { cohenKappa } from "../../../shared/agreement/kappa.ts";
import { exactMcNemar } from "../../../shared/agreement/mcnemar.ts";
import { twoByTwoOf } from "../../../shared/agreement/two-by-two.ts";
import { fairCoinUpperTail } from "../../../shared/statistics/exact/fair-coin.ts";
import stored from "../data/phases.json";

// Stored results of statsmodels 0.13.5 and SciPy 1.10.1; scripts/reference/phases.py makes them anew.

describe("Cohen's kappa against statsmodels' cohens_kappa on random tables", () => {
  it.each(stored.kappa)("$table", ({ table, ...expected }) => {
    const result = cohenKappa(table);
    if (result.kind === "not-computable") throw new Error(result.reason);
    expect(result.value).toBeCloseTo(expected.kappa, 10);
    expect(result.standardError).toBeCloseTo(expected.standardError, 10);
    expect(result.standardErrorUnderZero).toBeCloseTo(expected.standardErrorUnderZero, 10);
    expect(result.greatestPossible).toBeCloseTo(expected.greatestPossible, 10);
  });
});

describe("exact McNemar against statsmodels' mcnemar", () => {
  it.each(stored.mcnemar)("$b against $c", ({ b, c, p }) => {
    expect(exactMcNemar(twoByTwoOf(5, b, c, 5)).probability).toBeCloseTo(p, 10);
  });
});

describe("the fair coin's tail against SciPy's binom.sf", () => {
  it.each(stored.fairCoin)("$heads of $tosses", ({ tosses, heads, p }) => {
    expect(fairCoinUpperTail(heads, tosses) / p).toBeCloseTo(1, 9);
  });
});
