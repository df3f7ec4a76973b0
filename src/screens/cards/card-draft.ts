import type { Card } from "../../../shared/api/records.ts";
import { readPastedCards } from "../../../shared/record/card-text.ts";
import { markFor } from "../../../shared/record/mark-keys.ts";
import type { MarkValue } from "../../../shared/session/event.ts";

/** A card while it is being typed: its boxes or totals, and boxes that hold something that is no mark. */
export interface CardDraft {
  readonly card: Card;
  /** What stands in a box and is no mark, by box number from 1. */
  readonly bad: ReadonlyMap<number, string>;
}

export const draftOf = (card: Card): CardDraft => ({ card, bad: new Map() });

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
    return { ...draft, bad };
  }
  bad.delete(box);
  return { card: withBox(draft.card, box, mark), bad };
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

/** What a pasted block does to the drafts below and right of where it is pasted. */
export interface Pasted {
  readonly drafts: readonly CardDraft[];
  /** Rows of the block for which there is no student. */
  readonly rowsLeftOver: number;
  /** Filled cells of the block that lie past the last box of the card. */
  readonly boxesLeftOver: number;
}

/**
 * Lays a block copied from a spreadsheet over the cards, its first cell on one box. What is no mark is
 * kept in sight at its box and the rest is taken; what has no place is counted, never squeezed in.
 */
export function pasted(
  drafts: readonly CardDraft[],
  row: number,
  box: number,
  block: string,
  boxesOnCard: number,
): Pasted {
  const cards = readPastedCards(block, boxesOnCard - box + 1);
  let boxesLeftOver = 0;
  const laid = drafts.map((draft, index) => {
    const card = cards[index - row];
    if (card === undefined) return draft;
    const bad = new Map(draft.bad);
    for (const problem of card.problems) {
      if (problem.code === "box-bad-mark") bad.set(box + problem.box - 1, problem.text);
      else boxesLeftOver += 1;
    }
    const isBad = (at: number) =>
      card.problems.some((problem) => problem.code === "box-bad-mark" && problem.box === at + 1);
    return card.boxes.reduce<CardDraft>(
      (now, mark, at) =>
        isBad(at) ? now : { card: withBox(now.card, box + at, mark), bad: now.bad },
      { card: draft.card, bad },
    );
  });
  return {
    drafts: laid,
    rowsLeftOver: Math.max(0, row + cards.length - drafts.length),
    boxesLeftOver,
  };
}
