import { useState } from "react";
import type { Card, CardRow, RefusedCard } from "../../../shared/api/records.ts";
import { useTell } from "../../api/queries.ts";
import { useSaveAtRest } from "../../parts/sheet/use-save-at-rest.ts";
import { type CardDraft, cardToKeep, draftOf, fits } from "./card-draft.ts";

export type Drafts = ReadonlyMap<string, CardDraft>;

const isSame = (one: Card, other: Card) => JSON.stringify(one) === JSON.stringify(other);

/** What was typed on a session's cards, and the saving of it: at rest, and when the hand leaves a card. */
export function useCardDrafts(sessionId: string, rows: readonly CardRow[], boxesOnCard: number) {
  // By student, not by row: the list may change in another window while this one is typed in.
  const [drafts, setDrafts] = useState<Drafts>(new Map());
  const [saved, setSaved] = useState<ReadonlyMap<string, Card>>(new Map());
  const [refused, setRefused] = useState<readonly RefusedCard[]>([]);
  const save = useTell((api, cards: { studentId: string; card: Card }[]) =>
    api.records.saveCards({ sessionId, cards }),
  );

  const draftIn = (now: Drafts, { student, card, setAside }: CardRow): CardDraft =>
    (setAside ? undefined : now.get(student.id)) ?? draftOf(card);
  const keptOf = ({ student, card }: CardRow): Card => saved.get(student.id) ?? card;

  /** Cards that differ from what is kept and can be sent. */
  const unsavedOf = (now: Drafts) =>
    rows.flatMap((row) => {
      const card = cardToKeep(draftIn(now, row));
      if (row.setAside || isSame(card, keptOf(row)) || !fits(card, boxesOnCard)) return [];
      return [{ studentId: row.student.id, card }];
    });
  const isUnsaved = unsavedOf(drafts).length > 0;

  const saveAll = (now: Drafts) => {
    const changed = unsavedOf(now);
    if (changed.length === 0) return;
    save.mutate(changed, {
      onSuccess: (answer) => {
        setRefused(answer.refused);
        const unwritten = new Set(answer.refused.map(({ studentId }) => studentId));
        setSaved((then) => {
          const written = changed.filter(({ studentId }) => !unwritten.has(studentId));
          return new Map([
            ...then,
            ...written.map(({ studentId, card }) => [studentId, card] as const),
          ]);
        });
      },
    });
  };
  useSaveAtRest(drafts, isUnsaved, () => saveAll(drafts));

  return {
    drafts,
    setDrafts,
    refused,
    isUnsaved,
    error: save.error,
    draftOf: (row: CardRow) => draftIn(drafts, row),
    setDraft: (row: CardRow, draft: CardDraft) =>
      setDrafts((now) => new Map(now).set(row.student.id, draft)),
    save: (now: Drafts = drafts) => saveAll(now),
  };
}
export type CardDrafts = ReturnType<typeof useCardDrafts>;
