import type { Card } from "../../../shared/api/records.ts";
import { readPastedCards } from "../../../shared/record/card-text.ts";
import { markFor } from "../../../shared/record/mark-keys.ts";
import type { MarkValue } from "../../../shared/session/event.ts";

/** A card while it is being typed: its boxes or totals, and boxes that hold something that is no mark. */
export interface CardDraft {
  readonly card: Card;
  /** What stands in a box and is no mark, by box number from 1. */
  readonly bad: ReadonlyMap<number, string>;
  /** The card as it was before it was looked at in the other way, boxes or totals; null when it was not. */
  readonly before: CardDraft | null;
  /** Whether anything was typed since. Until then what stood before still stands. */
  readonly isChanged: boolean;
}

export const draftOf = (card: Card): CardDraft => ({
  card,
  bad: new Map(),
  before: null,
  isChanged: false,
});

/** The card that is to be kept: a mere look at the other way of entry changes nothing. */
export function cardToKeep(draft: CardDraft): Card {
  return draft.before !== null && !draft.isChanged ? cardToKeep(draft.before) : draft.card;
}

/** Box by box instead of totals, or the other way round; back again restores what was there. */
export function inOtherWay(draft: CardDraft): CardDraft {
  if (draft.before !== null) return draft.before;
  const { card } = draft;
  const other: Card =
    card.kind === "totals"
      ? { kind: "boxes", boxes: [] }
      : { kind: "totals", on: countOf(card.boxes, "on"), off: countOf(card.boxes, "off") };
  return { ...draftOf(other), before: draft };
}

const countOf = (boxes: readonly MarkValue[], value: MarkValue): number =>
  boxes.filter((box) => box === value).length;

/** The draft with these totals, as typed. */
export const withTotals = (draft: CardDraft, on: number, off: number): CardDraft => ({
  ...draft,
  card: { kind: "totals", on, off },
  bad: new Map(),
  isChanged: true,
});

/** Whether a card can be right: no more marks than it has boxes. */
export const fits = (card: Card, boxesOnCard: number): boolean =>
  card.kind === "boxes" || card.on + card.off <= boxesOnCard;

/** The marks of a draft, box by box, `count` long; totals have none. */
export function boxesOf(draft: CardDraft, count: number): MarkValue[] {
  const boxes = draft.card.kind === "boxes" ? draft.card.boxes : [];
  return Array.from({ length: count }, (_, index) => boxes[index] ?? "none");
}

/** How many boxes hold a mark. */
export const filledBoxes = ({ card }: CardDraft): number =>
  card.kind === "boxes" ? card.boxes.filter((box) => box !== "none").length : card.on + card.off;

/** The draft after one key in one box: a mark, or the key kept in sight as no mark. */
export function typed(draft: CardDraft, box: number, key: string): CardDraft {
  const mark = markFor(key);
  const bad = new Map(draft.bad);
  if (mark === null) {
    bad.set(box, key);
    return { ...draft, bad, isChanged: true };
  }
  bad.delete(box);
  return { ...draft, card: withBox(draft.card, box, mark), bad, isChanged: true };
}

function withBox(card: Card, box: number, mark: MarkValue): Card {
  const before = card.kind === "boxes" ? card.boxes : [];
  const length = Math.max(before.length, box);
  const boxes = Array.from({ length }, (_, index) =>
    index === box - 1 ? mark : (before[index] ?? "none"),
  );
  return {
    kind: "boxes",
    boxes: boxes.slice(0, boxes.findLastIndex((each) => each !== "none") + 1),
  };
}

/** A row of the sheet that a block is pasted over. */
export interface PastedOver {
  readonly draft: CardDraft;
  /** A student who is set aside has no card to change. */
  readonly isAside: boolean;
}

/** What of a pasted block had no place, so that it can be found again on the paper. */
export interface LeftOver {
  /** Filled rows for which there is no student: which row of the block, from 1, and how many cells. */
  readonly rows: readonly { readonly row: number; readonly cells: number }[];
  /** Filled cells past the last box: whose, by place in the sheet from 0, and how many. */
  readonly past: readonly { readonly index: number; readonly cells: number }[];
  /** Filled rows that met a student who is set aside, by place in the sheet from 0. */
  readonly aside: readonly number[];
}

/** What a pasted block does to the drafts below and right of where it is pasted. */
export interface Pasted {
  readonly drafts: readonly CardDraft[];
  /** Null when everything found its place. */
  readonly leftOver: LeftOver | null;
}

/**
 * Lays a block copied from a spreadsheet over the cards, its first cell on one box. What is no mark is
 * kept in sight at its box and the rest is taken; what has no place is named, never squeezed in.
 */
export function pasted(
  sheet: readonly PastedOver[],
  row: number,
  box: number,
  block: string,
  boxesOnCard: number,
): Pasted {
  const blockRows = readPastedCards(block, boxesOnCard - box + 1).map((card) => {
    const bad = card.problems.filter(({ code }) => code === "box-bad-mark");
    const past = card.problems.filter(({ code }) => code === "box-too-many");
    // What is no mark and past the last box has no box to stand in either.
    const isPast = (at: number) => box + at - 1 > boxesOnCard;
    const stray = bad.filter((problem) => isPast(problem.box));
    return {
      boxes: card.boxes,
      bad: new Map(
        bad.flatMap((problem) =>
          isPast(problem.box) ? [] : [[box + problem.box - 1, problem.text] as const],
        ),
      ),
      past: past.length + stray.length,
      cells: card.boxes.filter((mark) => mark !== "none").length + bad.length + past.length,
    };
  });
  const at = (index: number) => blockRows[index - row];
  const drafts = sheet.map(({ draft, isAside }, index) => {
    const laid = at(index);
    if (laid === undefined || laid.cells === 0 || isAside) return draft;
    // Totals that were only looked at give way to the boxes they were counted from.
    const isLook = draft.card.kind === "totals" && !draft.isChanged;
    const start = (isLook ? draft.before : null) ?? draft;
    let card = start.card;
    const bad = new Map(start.bad);
    laid.boxes.forEach((mark, step) => {
      if (laid.bad.has(box + step)) return;
      card = withBox(card, box + step, mark);
      bad.delete(box + step);
    });
    for (const [place, text] of laid.bad) bad.set(place, text);
    return { ...start, card, bad, isChanged: true };
  });
  const leftOver: LeftOver = {
    rows: blockRows.flatMap(({ cells }, index) =>
      row + index >= sheet.length && cells > 0 ? [{ row: index + 1, cells }] : [],
    ),
    past: sheet.flatMap(({ isAside }, index) => {
      const cells = at(index)?.past ?? 0;
      return cells > 0 && !isAside ? [{ index, cells }] : [];
    }),
    aside: sheet.flatMap(({ isAside }, index) =>
      isAside && (at(index)?.cells ?? 0) > 0 ? [index] : [],
    ),
  };
  const count = leftOver.rows.length + leftOver.past.length + leftOver.aside.length;
  return { drafts, leftOver: count === 0 ? null : leftOver };
}
