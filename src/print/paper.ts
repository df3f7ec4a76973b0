import type { Paper } from "../../shared/api/region-paper.ts";

export type { Paper };
export const papers = ["A4", "Letter"] as const satisfies readonly Paper[];

/** Upright sheets in millimetres: ISO 216 A4, and Letter of 8.5 by 11 inches. */
export const paperSizes: Readonly<
  Record<Paper, { readonly width: number; readonly height: number }>
> = {
  A4: { width: 210, height: 297 },
  Letter: { width: 215.9, height: 279.4 },
};

/** Left empty around cards: more than the edge that office printers cannot reach (common practice: 5 mm). */
export const cardsMarginMm = 8;

/** A printer's point in millimetres: 1/72 inch. */
export const pointMm = 25.4 / 72;

/** Cuts a list into sheets: `first` items on the first one, `next` on each further one; always one sheet. */
export function intoSheets<Item>(items: readonly Item[], first: number, next = first): Item[][] {
  if (first < 1 || next < 1)
    throw new RangeError(`first and next must be 1 or more; got ${first} and ${next}.`);
  const sheets = [items.slice(0, first)];
  for (let from = first; from < items.length; from += next) {
    sheets.push(items.slice(from, from + next));
  }
  return sheets;
}

/** The same with the further sheets filled evenly, so that none carries a single row of a long table. */
export function intoEvenSheets<Item>(
  items: readonly Item[],
  first: number,
  next: number,
): Item[][] {
  const left = items.length - first;
  const further = Math.ceil(left / next);
  return intoSheets(items, first, further > 0 ? Math.ceil(left / further) : next);
}

/** Left empty around a sheet of text, as `print.css` has it. */
export const textMarginMm = 14;
/** A row of a table to be filled in with its line, as `tables.css` makes it. */
const rowMm = 8.2;

/** How many rows a sheet of text holds below its heading row and words of `wordsMm`; one at least. */
export const rowsBelow = (paper: Paper, wordsMm: number): number =>
  Math.max(1, Math.floor((paperSizes[paper].height - 2 * textMarginMm - wordsMm) / rowMm) - 1);
