import { describe, expect, it } from "vitest";
import { exactMcNemar } from "../../../shared/agreement/mcnemar.ts";
import { twoByTwoOf } from "../../../shared/agreement/two-by-two.ts";

// Published tables. "R" values are what R 4.2.2's binom.test and mcnemar.test give for them;
// scripts/reference/mcnemar.R prints them anew.

describe("Approval in two surveys of 1600 people, Agresti (1990) Categorical Data Analysis, p. 350", () => {
  // The table as R's documentation of mcnemar.test gives it: 794 approved twice, 150 only at first, 86 only
  // the second time, 570 never.
  const found = exactMcNemar(twoByTwoOf(794, 150, 86, 570));

  it("has the exact probability that R gives", () => {
    expect(found.disagreements).toBe(236);
    expect(found.probability / 3.71593613957143e-5).toBeCloseTo(1, 10);
  });

  it("lies between the probabilities of the chi-squared forms", () => {
    // Without correction: chi-squared 17.3559, p = 3.099e-05, printed so by Penn State's STAT 504 notes
    // (lesson on matched pairs) and by R. With it: R's documented example prints 16.818, p = 4.115e-05.
    expect(found.probability).toBeGreaterThan(3.099e-5);
    expect(found.probability).toBeLessThan(4.115e-5);
  });

  it("names the direction: more approved at first than the second time", () => {
    expect(found.direction).toBe("first-says-on-more");
    expect(exactMcNemar(twoByTwoOf(794, 86, 150, 570)).direction).toBe("second-says-on-more");
  });
});

describe("Fagerland MW, Lydersen S, Laake P: exact conditional McNemar test", () => {
  it("complete response before and after consolidation: P = 0.052479", () => {
    // Cavo et al. 2012: 6 one way, 16 the other; printed so by the authors' R package contingencytables
    // (chapter 8 of Statistical Analysis of Contingency Tables, 2017), and by R.
    const { probability, direction } = exactMcNemar(twoByTwoOf(59, 6, 16, 80));
    expect(probability).toBeCloseTo(0.052479, 6);
    expect(direction).toBe("no-clear-direction");
  });

  it("airways before and after a transplant in 21 children: 0.0703125", () => {
    // Bentur et al. 2009 as in table 1 of BMC Med Res Methodol (2013) 13:91: 1, 1, 7, 12; the value from
    // R. It is 2 * (1 + 8) / 2^8 by the article's formula for the two-sided probability.
    const { probability } = exactMcNemar(twoByTwoOf(1, 1, 7, 12));
    expect(probability).toBeCloseTo(0.0703125, 12);
  });
});
