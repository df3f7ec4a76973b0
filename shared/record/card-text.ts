import type { MarkValue } from "../session/event.ts";
import { markFor } from "./mark-keys.ts";

/** What is wrong with a box that was typed or pasted; `row` and `box` count from 1. */
export interface BoxProblem {
  readonly code: "box-bad-mark" | "box-too-many";
  readonly row: number;
  readonly box: number;
  /** What stood in the box. */
  readonly text: string;
}

/** The marks that could be read, and what could not; a box with a problem holds `none`. */
export interface CardText {
  readonly boxes: readonly MarkValue[];
  readonly problems: readonly BoxProblem[];
}

/** Longest excerpt of a bad box that is given back. */
const excerpt = 20;

/**
 * Reads one card written as text, in one of two ways: box by box with tabs, commas or semicolons
 * between ("+, -, yes"), where nothing between two of them is an empty box; or without, one character
 * or word a box ("++-.+", "yes no yes"), where spaces are ignored and `.` is an empty box.
 *
 * A box that is no mark is named and left empty; so is every filled box past `boxesOnCard`. The rest
 * is kept. Empty boxes at the end are dropped: a card typed up to its fourth box has four boxes.
 *
 * @param row the number by which problems name this card
 */
export function readCardText(text: string, boxesOnCard: number, row = 1): CardText {
  const cells = splitCard(text);
  const boxes: MarkValue[] = [];
  const problems: BoxProblem[] = [];
  cells.forEach((cell, index) => {
    const box = index + 1;
    const value = markFor(cell);
    if (value === null) {
      problems.push({ code: "box-bad-mark", row, box, text: cell.trim().slice(0, excerpt) });
    } else if (value !== "none" && box > boxesOnCard) {
      problems.push({ code: "box-too-many", row, box, text: cell.trim().slice(0, excerpt) });
    }
    if (box <= boxesOnCard) boxes.push(value ?? "none");
  });
  return { boxes: withoutEmptyEnd(boxes), problems };
}

/**
 * Reads a block pasted from a spreadsheet: one row a student, one column a box. Row ends may be of any
 * system; the empty row that spreadsheets add at the end is ignored. Empty rows in between are cards
 * with nothing recorded.
 *
 * @returns one card a row, in order, each problem naming its row and box
 */
export function readPastedCards(block: string, boxesOnCard: number): CardText[] {
  const rows = block.split(/\r\n|\r|\n/);
  if (rows.length > 1 && rows.at(-1) === "") rows.pop();
  return rows.map((row, index) => readCardText(row, boxesOnCard, index + 1));
}

function splitCard(text: string): string[] {
  if (text.includes("\t")) return text.split("\t");
  if (/[,;]/.test(text)) return text.split(/[,;]/);
  return text.split(/\s+/).filter(Boolean).flatMap(splitWord);
}

/** "++-" is three boxes and so is "yny", but "yes" is one, and so is a word that means nothing. */
function splitWord(word: string): string[] {
  const characters = [...word];
  if (markFor(word) !== null) return [word];
  const isWord = /^\p{L}+$/u.test(word) && !characters.every((each) => markFor(each) !== null);
  return isWord ? [word] : characters;
}

/** The boxes without the empty ones after the last mark. */
export function withoutEmptyEnd(boxes: readonly MarkValue[]): MarkValue[] {
  return boxes.slice(0, boxes.findLastIndex((value) => value !== "none") + 1);
}
