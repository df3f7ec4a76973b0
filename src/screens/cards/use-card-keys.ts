import { useState } from "react";
import type { CardRow } from "../../../shared/api/records.ts";
import { markFor } from "../../../shared/record/mark-keys.ts";
import type { SheetKeys } from "../../parts/sheet/sheet.tsx";
import type { Place } from "../../parts/sheet/sheet-keys.ts";
import { type LeftOver, pasted, typed } from "./card-draft.ts";
import type { KeyRefused } from "./card-line.tsx";
import type { CardDrafts } from "./use-card-drafts.ts";

interface CardKeys {
  readonly rows: readonly CardRow[];
  readonly boxesOnCard: number;
  readonly cards: CardDrafts;
  readonly moveTo: (next: Place, isCardDone: boolean) => void;
  readonly toNextCard: (row: number) => void;
}

/** What keys and pasted blocks do on the sheet of cards, and what of them changed nothing. */
export function useCardKeys({ rows, boxesOnCard, cards, moveTo, toNextCard }: CardKeys) {
  const [leftOver, setLeftOver] = useState<LeftOver | null>(null);
  const [keyRefused, setKeyRefused] = useState<(KeyRefused & { studentId: string }) | null>(null);

  const erase = (row: CardRow, here: Place, key: string) => {
    const isPastEnd = here.box > boxesOnCard;
    if (isPastEnd && key === "Delete") return;
    const box = Math.min(here.box, boxesOnCard);
    cards.setDraft(row, typed(cards.draftOf(row), box, ""));
    if (key === "Backspace" && here.box > 1) moveTo({ ...here, box: here.box - 1 }, false);
  };

  const takeKey = (row: CardRow, here: Place, key: string) => {
    if (here.box > boxesOnCard) {
      // The card is full; what has no box must not bend the last one.
      if (markFor(key) !== "none") setKeyRefused({ studentId: row.student.id, why: "full", key });
      return;
    }
    const after = typed(cards.draftOf(row), here.box, key);
    cards.setDraft(row, after);
    // A key that is no mark stays in its box, so that the message is about the box in sight.
    if (!after.bad.has(here.box)) moveTo({ ...here, box: here.box + 1 }, false);
  };

  /** Changes the card at a place, unless its student was not here. */
  const change = (here: Place, key: string, how: typeof erase) => {
    const row = rows[here.row];
    if (row === undefined) return;
    if (row.setAside) setKeyRefused({ studentId: row.student.id, why: "aside" });
    else how(row, here, key);
  };

  const keys: SheetKeys = {
    onAny() {
      setLeftOver(null);
      setKeyRefused(null);
    },
    onEnter: ({ row }) => toNextCard(row),
    onMove: (next, from) => moveTo(next, next.row !== from.row),
    onErase: (here, key) => change(here, key, erase),
    onType: (here, key) => change(here, key, takeKey),
  };

  const onPaste = (block: string, here: Place) => {
    setKeyRefused(null);
    const sheet = rows.map((row) => ({ draft: cards.draftOf(row), isAside: row.setAside }));
    const result = pasted(sheet, here.row, here.box, block, boxesOnCard);
    const after = new Map(cards.drafts);
    rows.forEach((row, index) => {
      const draft = result.drafts[index];
      if (draft !== undefined && draft !== sheet[index]?.draft) after.set(row.student.id, draft);
    });
    cards.setDrafts(after);
    setLeftOver(result.leftOver);
    cards.save(after);
  };

  return {
    keys,
    onPaste,
    leftOver,
    refusedFor: (studentId: string) => (keyRefused?.studentId === studentId ? keyRefused : null),
  };
}
