import { describe, expect, it } from "vitest";
import { cohenKappa, kappaIndices, kappaOf } from "../../../shared/agreement/kappa.ts";
import {
  nonOccurrenceAgreement,
  occurrenceAgreement,
} from "../../../shared/agreement/occurrence.ts";
import { percentAgreement } from "../../../shared/agreement/percent-agreement.ts";
import { type PairValue, twoByTwo, twoByTwoOf } from "../../../shared/agreement/two-by-two.ts";

// Published two-decimal kappas are compared to half their last digit. "Computed" values were worked out
// apart from this project with statsmodels 0.13.5 and R 4.2.2 and are compared to their six digits.

function kappa(table: number[][]) {
  const result = cohenKappa(table);
  if (result.kind === "not-computable") throw new Error(result.reason);
  return result;
}

const two = (a: number, b: number, c: number, d: number) => [
  [a, b],
  [c, d],
];

describe("Cohen J (1960) Educ Psychol Meas 20:37-46, the worked 3 x 3 example, N = 200", () => {
  const result = kappa([
    [88, 14, 18],
    [10, 40, 10],
    [2, 6, 12],
  ]);

  it("gives the shares and kappa, worked by hand", () => {
    expect(result.observed).toBeCloseTo(0.7, 10);
    expect(result.expected).toBeCloseTo(0.41, 10);
    expect(result.value).toBeCloseTo(0.492, 3);
  });

  it("gives the greatest kappa and both large-sample errors (computed)", () => {
    expect(result.value).toBeCloseTo(0.491525, 6);
    expect(result.greatestPossible).toBeCloseTo(0.830508, 6);
    expect(result.standardError).toBeCloseTo(0.051, 4);
    expect(result.standardErrorUnderZero).toBeCloseTo(0.052, 4);
  });
});

describe("Sim J, Wright CC (2005) Phys Ther 85:257-268, 39 patients", () => {
  const result = kappa(two(22, 2, 4, 11));

  it("gives the figures around it (computed)", () => {
    expect(result.observed).toBeCloseTo(0.846154, 6);
    expect(result.expected).toBeCloseTo(0.538462, 6);
    expect(result.value).toBeCloseTo(0.666667, 6);
    expect(result.greatestPossible).toBeCloseTo(0.888889, 6);
    expect(result.adjusted).toBeCloseTo(0.692308, 6);
    const indices = kappaIndices(twoByTwoOf(22, 2, 4, 11));
    expect(indices).toMatchObject({ kind: "computed" });
    if (indices.kind !== "computed") return;
    expect(indices.prevalence).toBeCloseTo(0.282051, 6);
    expect(indices.bias).toBeCloseTo(-0.051282, 6);
  });
});

describe("Feinstein AR, Cicchetti DV (1990) J Clin Epidemiol 43:543-549", () => {
  it.each([
    { table: [40, 9, 6, 45], computed: 0.6995 },
    { table: [80, 10, 5, 5], computed: 0.3182 },
    { table: [45, 15, 25, 15], computed: 0.130435 },
    { table: [25, 35, 5, 35], computed: 0.259259 },
  ])("$table gives kappa $computed (computed)", (example) => {
    const [a = 0, b = 0, c = 0, d = 0] = example.table;
    const result = kappaOf(twoByTwoOf(a, b, c, d));
    if (result.kind === "not-computable") throw new Error(result.reason);
    expect(result.value).toBeCloseTo(example.computed, 4);
  });

  it("gives the adjusted kappas, index and greatest kappas beside them (computed)", () => {
    expect(kappa(two(40, 9, 6, 45)).adjusted).toBeCloseTo(0.7, 10);
    expect(kappa(two(80, 10, 5, 5)).adjusted).toBeCloseTo(0.7, 10);
    expect(kappa(two(80, 10, 5, 5)).greatestPossible).toBeCloseTo(0.7727, 4);
    expect(kappa(two(25, 35, 5, 35)).greatestPossible).toBeCloseTo(0.4444, 4);
    expect(kappaIndices(twoByTwoOf(80, 10, 5, 5))).toMatchObject({ prevalence: 0.75 });
  });
});

describe("the paradox table used by Gwet, N = 125", () => {
  it("agrees on 94 % with a kappa below 0 (computed)", () => {
    const table = twoByTwoOf(118, 5, 2, 0);
    const result = kappa(two(118, 5, 2, 0));
    expect(result.observed).toBeCloseTo(0.944, 10);
    expect(result.value).toBeCloseTo(-0.0234, 4);
    expect(result.adjusted).toBeCloseTo(0.888, 10);
    expect(nonOccurrenceAgreement(table)).toEqual({ kind: "computed", value: 0 });
  });
});

describe("Fleiss's textbook table of two raters and three categories, N = 100", () => {
  it("gives kappa .676471 and expected .66 (computed)", () => {
    const result = kappa([
      [75, 1, 4],
      [5, 4, 1],
      [0, 0, 10],
    ]);
    expect(result.value).toBeCloseTo(0.676471, 6);
    expect(result.expected).toBeCloseTo(0.66, 10);
  });
});

describe("Reed & Azulay (2011) Behav Anal Pract 4(2):45-52, after Cooper, Heron & Heward", () => {
  // Observers differ in intervals 1 and 7, agree on absence in 2 to 4, on presence in 5 and 6.
  const first: PairValue[] = ["on", "off", "off", "off", "on", "on", "off"];
  const second: PairValue[] = ["off", "off", "off", "off", "on", "on", "on"];
  const table = twoByTwo(first.map((value, i) => ({ first: value, second: second[i] ?? "none" })));

  it("interval by interval 71.4 % (seen in second-hand copies)", () => {
    const result = percentAgreement(table);
    if (result.kind === "not-computable") throw new Error(result.reason);
    expect(result).toMatchObject({ matching: 5, compared: 7 });
    expect(result.value * 100).toBeCloseTo(71.4, 1);
  });

  it("scored interval 50 % (seen in second-hand copies)", () => {
    expect(occurrenceAgreement(table)).toEqual({ kind: "computed", value: 0.5 });
  });

  it("unscored interval 60 %, intervals 5 and 6 dropped (dropping seen, value computed)", () => {
    expect(nonOccurrenceAgreement(table)).toEqual({ kind: "computed", value: 0.6 });
  });
});

describe("a symmetric table that can be checked by hand", () => {
  it("45 10 / 5 40", () => {
    const table = twoByTwoOf(45, 10, 5, 40);
    const result = kappa(two(45, 10, 5, 40));
    expect(result.observed).toBeCloseTo(0.85, 12);
    expect(result.expected).toBeCloseTo(0.5, 12);
    expect(result.value).toBeCloseTo(0.7, 12);
    expect(result.adjusted).toBeCloseTo(0.7, 12);
    expect(occurrenceAgreement(table)).toEqual({ kind: "computed", value: 0.75 });
    expect(nonOccurrenceAgreement(table)).toMatchObject({ value: 40 / 55 });
  });
});
