import "../../../setup/property-seed.ts";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  boxGap,
  type CardWish,
  cardsPerPage,
  layOutCards,
} from "../../../../src/print/card-layout.ts";
import {
  cardsMarginMm,
  intoEvenSheets,
  intoSheets,
  paperSizes,
  papers,
} from "../../../../src/print/paper.ts";
import { emsOf, linesOf } from "../../../../src/print/text-lines.ts";

const wish: CardWish = {
  paper: "A4",
  perPage: 8,
  large: false,
  look: "words",
  boxes: 12,
  names: ["Otter", "Juniper"],
  pictures: false,
  targets: ["I am in my place, my eyes are on my work and my hands are busy with it."],
  legend: "+ yes, I was working   – no, I was not",
  foot: ["My goal: ____ yes", "I got ____ of ____", "Code 8HVJ"],
};

const anyWish: fc.Arbitrary<CardWish> = fc.record({
  paper: fc.constantFrom(...papers),
  perPage: fc.constantFrom(...cardsPerPage),
  large: fc.boolean(),
  look: fc.constantFrom("words" as const, "symbols" as const),
  boxes: fc.integer({ min: 1, max: 2_200 }),
  names: fc.array(fc.string({ maxLength: 60 }), { maxLength: 5 }),
  pictures: fc.boolean(),
  targets: fc.array(fc.lorem({ mode: "sentences", maxCount: 4 }), { maxLength: 3 }),
  legend: fc.lorem({ maxCount: 10 }),
  foot: fc.constant(wish.foot),
});

describe("the layout of cards", () => {
  it("keeps the wished number when everything fits", () => {
    for (const perPage of cardsPerPage) {
      for (const paper of papers) {
        expect(layOutCards({ ...wish, perPage, paper }).perPage, `${perPage} on ${paper}`).toBe(
          perPage,
        );
      }
    }
  });

  it("takes fewer cards a page when boxes, print or words ask for more room", () => {
    expect(layOutCards({ ...wish, boxes: 60 }).perPage).toBeLessThan(8);
    expect(layOutCards({ ...wish, large: true }).perPage).toBeLessThan(8);
    expect(layOutCards({ ...wish, look: "symbols", boxes: 20 }).perPage).toBeLessThan(8);
    expect(layOutCards({ ...wish, boxes: 16, targets: ["working ".repeat(37)] }).perPage).toBe(4);
  });

  it("goes on over several pages when one cannot hold a student's boxes", () => {
    const layout = layOutCards({ ...wish, boxes: 900 });
    expect(layout.perPage).toBe(1);
    expect(layout.cardsEach).toBeGreaterThan(1);
    expect(layout.cardsEach * layout.boxesPerCard).toBeGreaterThanOrEqual(900);
  });

  it("never prints smaller than 9 points eight a page, 11 otherwise, 18 in large print", () => {
    fc.assert(
      fc.property(anyWish, (any) => {
        const { perPage, type } = layOutCards(any);
        const least = any.large ? 18 : perPage === 8 ? 9 : 11;
        expect(Math.min(type.name, type.target, type.small)).toBeGreaterThanOrEqual(least);
      }),
    );
  });

  it("never lets boxes leave the card, nor shrinks them below what a child can write in", () => {
    fc.assert(
      fc.property(anyWish, (any) => {
        const { box, boxesPerCard, card, padding, columns, rows } = layOutCards(any);
        const boxRows = Math.ceil(boxesPerCard / box.columns);
        const width = box.columns * (box.width + boxGap) - boxGap;
        const height = boxRows * (box.height + boxGap) - boxGap;
        // Rows of boxes fill the card's width.
        expect(width).toBeCloseTo(card.width - 2 * padding, 9);
        expect(height).toBeLessThanOrEqual(card.height - 2 * padding + 1e-9);
        expect(Math.min(box.width, box.height)).toBeGreaterThanOrEqual(any.large ? 13 : 8.5);
        const sheet = paperSizes[any.paper];
        expect(columns * card.width + 2 * cardsMarginMm).toBeCloseTo(sheet.width, 9);
        expect(rows * card.height + 2 * cardsMarginMm).toBeCloseTo(sheet.height, 9);
      }),
    );
  });
});

describe("sheets", () => {
  it("are six for 24 cards four a page, and one for none", () => {
    const cards = Array.from({ length: 24 }, (_, index) => index);
    expect(intoSheets(cards, 4)).toHaveLength(6);
    expect(intoSheets(cards, 8)).toHaveLength(3);
    expect(intoSheets([], 8)).toEqual([[]]);
    expect(intoSheets(cards, 20, 3).map(({ length }) => length)).toEqual([20, 3, 1]);
    expect(() => intoSheets(cards, 0)).toThrow(RangeError);
  });

  it("of a long table are filled evenly after the first, never beyond what one holds, and none more than needed", () => {
    const lengths = (rows: number) =>
      intoEvenSheets(Array(rows).fill(0), 17, 24).map(({ length }) => length);
    expect(lengths(63)).toEqual([17, 23, 23]);
    expect(lengths(42)).toEqual([17, 13, 12]);
    expect(lengths(17)).toEqual([17]);
    expect(lengths(0)).toEqual([0]);
    fc.assert(
      fc.property(
        fc.array(fc.integer(), { maxLength: 400 }),
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 1, max: 40 }),
        (rows, first, next) => {
          const sheets = intoEvenSheets(rows, first, next);
          expect(sheets.flat()).toEqual(rows);
          expect(sheets).toHaveLength(intoSheets(rows, first, next).length);
          expect(Math.max(0, ...sheets.slice(1).map(({ length }) => length))).toBeLessThanOrEqual(
            next,
          );
        },
      ),
    );
  });

  it("have the sizes of ISO 216 and of 8.5 by 11 inches", () => {
    expect(paperSizes.A4).toEqual({ width: 210, height: 297 });
    expect(paperSizes.Letter.width).toBeCloseTo(8.5 * 25.4, 9);
    expect(paperSizes.Letter.height).toBeCloseTo(11 * 25.4, 9);
  });
});

describe("lines of a text", () => {
  it("wrap between words and break a word that is longer than a line", () => {
    // 10 points are 3.53 mm: 20 mm hold 5.67 times the type size, which is nine letters like "a".
    expect(linesOf("", 20, 10)).toBe(0);
    expect(linesOf("aaaa aaaa", 20, 10)).toBe(1);
    expect(linesOf("aaaa aaaa aaaa", 20, 10)).toBe(2);
    expect(linesOf("a".repeat(25), 20, 10)).toBe(3);
    expect(linesOf(`aaa ${"a".repeat(25)} aaa`, 20, 10)).toBe(4);
  });

  it("are estimated wider than the typeface really is, yet not by much", () => {
    // Widths measured in Chromium with the app's typeface in bold, as multiples of the type size.
    const measured = [
      {
        text: "I am in my place, my eyes are on my work and my hands are busy with it.",
        mean: 0.4858,
      },
      {
        text: "Estoy en mi sitio, mis ojos están en mi trabajo y mis manos se ocupan de él.",
        mean: 0.4735,
      },
      { text: "Mommy WWW mammoth whom", mean: 0.6729 },
      { text: "Juniper Mckenna", mean: 0.5338 },
    ];
    for (const { text, mean } of measured) {
      const real = mean * text.length;
      expect(emsOf(text), text).toBeGreaterThan(real);
      expect(emsOf(text), text).toBeLessThan(1.15 * real);
    }
  });
});
