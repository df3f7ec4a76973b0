import { useState } from "react";
import type { CardForDay } from "../../../shared/api/home-cards.ts";
import type { HomeCardDay } from "../../../shared/home/kept-card.ts";
import { mergedDay } from "../../../shared/home/merged-day.ts";
import { useTell } from "../../api/queries.ts";
import { useSaveAtRest } from "../../parts/sheet/use-save-at-rest.ts";
import { typedOf } from "./card-days.ts";

/** What was typed on one card: the card and what was kept of it at the last key, and what stands there now. */
interface Edit {
  readonly card: CardForDay;
  readonly began: HomeCardDay;
  readonly mine: HomeCardDay;
}
type Edits = ReadonlyMap<string, Edit>;

const isSame = (one: HomeCardDay | undefined, other: HomeCardDay): boolean =>
  JSON.stringify(one) === JSON.stringify(other);

/**
 * What was typed of a day's cards, and the saving of it. Two windows may type on one card: what the other one
 * saved stands beside what is typed here, box by box. Whose card is gone meanwhile keeps nobody's waiting.
 *
 * @param look asks for the cards anew; settles when they are there
 */
export function useTypedCards(
  cards: readonly CardForDay[],
  day: string,
  look: () => Promise<unknown>,
) {
  const [edits, setEdits] = useState<Edits>(new Map());
  const [saved, setSaved] = useState<ReadonlyMap<string, HomeCardDay>>(new Map());
  const save = useTell((api, cardsOf: ReadonlyMap<string, HomeCardDay>) =>
    api.homeCards.saveDays({
      days: [...cardsOf].map(([studentId, typed]) => {
        const began = edits.get(studentId)?.began;
        return { studentId, typed, ...(began === undefined ? {} : { began }) };
      }),
    }),
  );

  /** A card as it is shown: a version that was made meanwhile waits until this one is saved. */
  function shown(card: CardForDay): { card: CardForDay; typed: HomeCardDay } {
    const kept = typedOf(card, day);
    const edit = edits.get(card.studentId);
    if (edit === undefined) return { card, typed: kept };
    if (edit.card.version.id !== card.version.id) return { card: edit.card, typed: edit.mine };
    return { card, typed: mergedDay(edit.began, edit.mine, kept) };
  }

  const unsaved = new Map(
    cards.flatMap((each): [string, HomeCardDay][] => {
      const { typed } = shown(each);
      const isKept = isSame(saved.get(each.studentId), typed) || isSame(typedOf(each, day), typed);
      return edits.has(each.studentId) && !isKept ? [[each.studentId, typed]] : [];
    }),
  );

  /** What is saved now is where the next key begins from; what was typed since stays typed. */
  const goOnFrom = (sent: ReadonlyMap<string, HomeCardDay>) =>
    setEdits((now) => {
      const next = new Map(now);
      for (const [id, began] of sent) {
        const edit = now.get(id);
        if (edit === undefined) continue;
        next.set(id, { ...edit, began, mine: mergedDay(edit.began, edit.mine, began) });
      }
      return next;
    });

  const saveNow = () => {
    if (unsaved.size === 0) return;
    save.mutate(unsaved, {
      onSuccess: () => {
        setSaved((now) => new Map([...now, ...unsaved]));
        // Not before the page has what was kept: its boxes would be empty for a moment.
        void look().then(() => goOnFrom(unsaved));
      },
    });
  };
  useSaveAtRest(edits, unsaved.size > 0, saveNow);

  return {
    shown,
    saveNow,
    isSaving: save.isPending,
    isUnsaved: unsaved.size > 0,
    error: save.error,
    change(card: CardForDay, mine: HomeCardDay): void {
      // Each key is pressed on what is shown: it may put back what another window has changed since.
      const began = typedOf(card, day);
      setEdits((now) => new Map(now).set(card.studentId, { card, began, mine }));
    },
  };
}
