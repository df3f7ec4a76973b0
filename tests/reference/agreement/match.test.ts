import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { correctedRate, roganGladen } from "../../../shared/agreement/corrected-rate.ts";
import { gwetAc1 } from "../../../shared/agreement/gwet-ac1.ts";
import { kappaOf } from "../../../shared/agreement/kappa.ts";
import { exactMcNemar } from "../../../shared/agreement/mcnemar.ts";
import { offRecordedOn } from "../../../shared/agreement/off-recorded-on.ts";
import { twoByTwoOf } from "../../../shared/agreement/two-by-two.ts";
import { fisherUpperTail } from "../../../shared/statistics/exact/fisher-exact.ts";

interface Corrected {
  readonly on: number;
  readonly off: number;
  readonly estimate: number;
  readonly interval: readonly [number, number];
}
interface Reference {
  readonly documented: number;
  readonly tables: readonly {
    readonly cells: readonly [number, number, number, number];
    readonly fisher: number;
    readonly lean?: number;
    readonly hidden?: readonly [number, number];
    readonly corrected?: readonly Corrected[];
  }[];
}

// R 4.2.2 and epiR 2.0.57; scripts/reference/agreement.R makes the file anew.
const reference: Reference = JSON.parse(
  readFileSync(join(import.meta.dirname, "../data/agreement-r.json"), "utf8"),
);

describe.each(reference.tables)(
  "the table $cells against R",
  ({ cells, fisher, lean, hidden, corrected }) => {
    const table = twoByTwoOf(...cells);

    it("has R's one-sided probabilities and Wilson interval", () => {
      expect(fisherUpperTail(...cells) / fisher).toBeCloseTo(1, 9);
      if (lean !== undefined)
        expect(exactMcNemar(table).oneSidedProbability / lean).toBeCloseTo(1, 12);
      const share = offRecordedOn(table);
      if (hidden === undefined || share.kind === "not-computable") {
        expect(share.kind).toBe(hidden === undefined ? "not-computable" : "computed");
        return;
      }
      expect(share.interval.lower).toBeCloseTo(hidden[0], 12);
      expect(share.interval.upper).toBeCloseTo(hidden[1], 12);
    });

    it("has the corrected rate of epiR, and Lang and Reiczigel's limits", () => {
      for (const { on, off, estimate, interval } of corrected ?? []) {
        const found = correctedRate(table, { on, off });
        if (found.kind === "not-computable") throw new Error(found.reason);
        expect(found.value).toBeCloseTo(Math.min(1, Math.max(0, estimate)), 12);
        // Ours are never inside the estimate, which at the ends theirs can be.
        expect(found.interval.lower).toBeCloseTo(Math.min(found.value, interval[0]), 12);
        expect(found.interval.upper).toBeCloseTo(Math.max(found.value, interval[1]), 12);
      }
      if (corrected === undefined)
        expect(correctedRate(table, { on: 90, off: 30 }).kind).toBe("not-computable");
    });
  },
);

describe("Rogan and Gladen's estimate", () => {
  it("gives the printed 5.1 in 100 of the brucellosis example in epiR's help page of epi.prev", () => {
    // 23 of 150 cows test positive; sensitivity 96 %, specificity 89 %.
    expect(100 * roganGladen(23 / 150, 0.96, 0.89)).toBeCloseTo(5.1, 1);
    expect(roganGladen(23 / 150, 0.96, 0.89)).toBeCloseTo(reference.documented, 12);
  });

  it("gives the printed 0 of that page's second example, where the formula falls below it", () => {
    // 6 of 151 children of 1 to 4 years positive; 96.4 and 92.7 %.
    expect(roganGladen(6 / 151, 0.964, 0.927)).toBe(0);
  });

  it("refuses a test that tells nothing", () => {
    expect(() => roganGladen(0.5, 0.6, 0.4)).toThrow("must be above 1; got 1");
  });
});

describe("the corrected rate", () => {
  it("is withheld under five checks of a kind, and where the record tells nothing", () => {
    const record = { on: 80, off: 20 };
    const few = { kind: "not-computable", reason: "few-checks-of-each-kind" };
    expect(correctedRate(twoByTwoOf(20, 1, 1, 3), record)).toEqual(few);
    expect(correctedRate(twoByTwoOf(20, 1, 1, 6), { on: 0, off: 0 })).toEqual(few);
    const nothing = { kind: "not-computable", reason: "record-tells-nothing" };
    expect(correctedRate(twoByTwoOf(30, 8, 0, 0), record)).toEqual(nothing);
    expect(correctedRate(twoByTwoOf(20, 6, 5, 2), record)).toEqual(nothing);
  });

  it("is less sure where marks of a session are alike", () => {
    const width = (designEffect: number) => {
      const found = correctedRate(twoByTwoOf(50, 8, 2, 20), { on: 420, off: 80 }, designEffect);
      return found.kind === "computed" ? found.interval.upper - found.interval.lower : 0;
    };
    expect(width(3)).toBeGreaterThan(width(1));
    expect(() => correctedRate(twoByTwoOf(50, 8, 2, 20), { on: 4, off: 1 }, 0.9)).toThrow(
      "1 or more; got 0.9",
    );
  });
});

describe("Gwet's AC1", () => {
  it("gives the value and error printed in the vignette of the R package irrCAC", () => {
    // Its table cont3x3abstractors: two abstractors, 100 pregnancies. Printed: 0.8493305 (SE 0.04321747).
    const found = gwetAc1([
      [13, 0, 0],
      [0, 20, 7],
      [0, 4, 56],
    ]);
    if (found.kind === "not-computable") throw new Error(found.reason);
    expect(found.value).toBeCloseTo(0.8493305, 7);
    expect(found.standardError).toBeCloseTo(0.04321747, 8);
  });

  it("gives the value printed in the documentation of the Python package PyCM", () => {
    // Its confusion matrix of three classes, twelve cases: Gwet_AC1 0.38931 beside kappa 0.35484.
    expect(
      gwetAc1([
        [3, 0, 0],
        [0, 1, 2],
        [2, 1, 3],
      ]),
    ).toMatchObject({ value: expect.closeTo(0.38931, 5) });
  });

  it("stays high where kappa falls below 0, nearly all cases being of one kind", () => {
    // Worked by hand for 125 subjects: .944 agree; yes is said in 243 of 250, so AC1 expects 2 x .972 x .028 =
    // .054432 and is .9408; kappa expects (123 x 120 + 2 x 5) / 125^2 = .9453 and is -.0234.
    expect(
      gwetAc1([
        [118, 5],
        [2, 0],
      ]),
    ).toMatchObject({ value: expect.closeTo(0.9408, 4) });
    expect(kappaOf(twoByTwoOf(118, 5, 2, 0))).toMatchObject({ value: expect.closeTo(-0.0234, 4) });
  });

  it("refuses what is no table of counts", () => {
    expect(() => gwetAc1([[1]])).toThrow("square table");
    expect(() => gwetAc1([[1, 2], [3]])).toThrow("square table");
    expect(() =>
      gwetAc1([
        [1, -2],
        [3, 4],
      ]),
    ).toThrow("square table");
    expect(
      gwetAc1([
        [0, 0],
        [0, 0],
      ]),
    ).toEqual({ kind: "not-computable", reason: "no-pairs" });
  });
});
