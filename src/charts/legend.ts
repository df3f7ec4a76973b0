import { type Markish, text } from "@observablehq/plot";
import { ink } from "./figure.tsx";

const rowPx = 16;

/** Pixels that a label takes with some air, at about seven a letter. */
export const labelRoom = (label: string): number => 7 * label.length + 12;

/** One row where there is room for it, otherwise a row or more for each sign; wide gaps part the signs. */
export const legendRows = (legend: string, widthPx: number): readonly string[] =>
  labelRoom(legend) <= widthPx
    ? [legend]
    : legend.split(/ {2,}/).flatMap((sign) => wrapped(sign, widthPx));

function wrapped(words: string, widthPx: number): string[] {
  const rows: string[] = [];
  for (const word of words.split(" ")) {
    const longer = rows.length === 0 ? word : `${rows.at(-1)} ${word}`;
    if (rows.length > 0 && labelRoom(longer) <= widthPx) rows[rows.length - 1] = longer;
    else rows.push(word);
  }
  return rows;
}

/** Pixels that a legend takes more than one of a single row. */
export const moreRoom = (rows: readonly string[]): number => rowPx * (rows.length - 1);

/** A legend's rows over a drawing, the last of them so many pixels above it. */
export const legendMarks = (rows: readonly string[], abovePx: number): Markish[] =>
  rows.map((row, at) =>
    text([row], {
      frameAnchor: "top-left",
      dy: -abovePx - rowPx * (rows.length - 1 - at),
      fill: ink.soft,
    }),
  );
