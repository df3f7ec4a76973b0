import { type Paper, paperSizes, pointMm, textMarginMm } from "./paper.ts";

/**
 * Widths of letters as shares of the type size, for the app's typeface in bold, the widest we print:
 * generous, so that a text takes no more lines than told. Held against measured widths by a test.
 */
const widths = { wide: 0.88, capital: 0.68, narrow: 0.35, other: 0.57 } as const;

function letterWidth(letter: string): number {
  if (/[mwMWŒÆ@%—]/u.test(letter)) return widths.wide;
  if (/\p{Lu}/u.test(letter)) return widths.capital;
  if (/[ijltfríI.,;:'’!|()[\] -]/u.test(letter)) return widths.narrow;
  return widths.other;
}

/** Width of a text on one line, as a multiple of the type size. */
export function emsOf(text: string): number {
  return [...text].reduce((sum, letter) => sum + letterWidth(letter), 0);
}

/** How many lines a text takes when it is wrapped between words; 0 for no text. */
export function linesOf(text: string, widthMm: number, sizePt: number): number {
  const words = text.split(/\s+/).filter((word) => word !== "");
  if (words.length === 0) return 0;
  const room = Math.max(1, widthMm / (sizePt * pointMm));
  let lines = 1;
  let used = 0;
  for (const word of words) {
    const width = emsOf(word);
    const joined = used === 0 ? width : used + widths.narrow + width;
    if (joined <= room) {
      used = joined;
      continue;
    }
    if (used > 0) lines += 1;
    // A word longer than a line is broken.
    const broken = Math.ceil(width / room) - 1;
    lines += broken;
    used = width - broken * room;
  }
  return lines;
}

/** A text and the size of its type in points. */
export type SizedText = readonly [text: string, sizePt: number];

/** The distance of two lines as a share of the type size, as `print.css` sets it. */
const lineHeight = 1.25;

/** How high texts below one another are on a sheet of text, in millimetres: never less than they are printed. */
export function wordsHeight(paper: Paper, texts: readonly SizedText[]): number {
  const widthMm = paperSizes[paper].width - 2 * textMarginMm;
  return texts.reduce(
    (sum, [text, pt]) => sum + linesOf(text, widthMm, pt) * pt * pointMm * lineHeight,
    0,
  );
}
