import { type ClipboardEvent, type KeyboardEvent, useRef, useState } from "react";
import type { Card, CardRow, RefusedCard } from "../../../shared/api/records.ts";
import { markFor } from "../../../shared/record/mark-keys.ts";
import { useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { Problem } from "../../parts/problem.tsx";
import { type Place, placeAfter } from "../../parts/sheet/sheet-keys.ts";
import { useSaveAtRest } from "../../parts/sheet/use-save-at-rest.ts";
import { useSay } from "../../text/text.tsx";
import {
  type CardDraft,
  cardToKeep,
  draftOf,
  fits,
  type LeftOver,
  pasted,
  typed,
} from "./card-draft.ts";
import { CardLine, type KeyRefused } from "./card-line.tsx";
import { LeftOverNotice, RefusedNotice } from "./left-over-notice.tsx";

interface CardGridProps {
  sessionId: string;
  rows: readonly CardRow[];
  boxesOnCard: number;
  cuesDelivered: number;
}

type Drafts = ReadonlyMap<string, CardDraft>;
const isSame = (one: Card, other: Card) => JSON.stringify(one) === JSON.stringify(other);

/**
 * All cards of a session as one sheet, made for typing: one key a box, arrows, Tab and Enter move as in
 * a spreadsheet, blocks can be pasted. Each row is saved when the hand leaves it or rests.
 */
export function CardGrid({ sessionId, rows, boxesOnCard, cuesDelivered }: CardGridProps) {
  const say = useSay();
  const grid = useRef<HTMLTableElement>(null);
  // By student, not by row: the list may change in another window while this one is typed in.
  const [drafts, setDrafts] = useState<Drafts>(new Map());
  const [saved, setSaved] = useState<ReadonlyMap<string, Card>>(new Map());
  const [place, setPlace] = useState<Place>(() => ({ row: nextHere(rows, -1) ?? 0, box: 1 }));
  const [leftOver, setLeftOver] = useState<LeftOver | null>(null);
  const [keyRefused, setKeyRefused] = useState<(KeyRefused & { studentId: string }) | null>(null);
  const [refused, setRefused] = useState<readonly RefusedCard[]>([]);
  const save = useTell((api, cards: { studentId: string; card: Card }[]) =>
    api.records.saveCards({ sessionId, cards }),
  );
  const aside = useTell((api, input: { studentId: string; aside: boolean }) =>
    api.sessions.setAside({ sessionId, ...input }),
  );

  const draftOfRow = (now: Drafts, { student, card, setAside }: CardRow): CardDraft =>
    (setAside ? undefined : now.get(student.id)) ?? draftOf(card);
  const keptOf = ({ student, card }: CardRow): Card => saved.get(student.id) ?? card;

  /** Cards that differ from what is kept and can be sent. */
  const unsavedOf = (now: Drafts) =>
    rows.flatMap((row) => {
      const card = cardToKeep(draftOfRow(now, row));
      if (row.setAside || isSame(card, keptOf(row)) || !fits(card, boxesOnCard)) return [];
      return [{ studentId: row.student.id, card }];
    });
  const unsaved = unsavedOf(drafts).length > 0;

  const setDraft = (row: CardRow, draft: CardDraft) =>
    setDrafts((now) => new Map(now).set(row.student.id, draft));

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
  useSaveAtRest(drafts, unsaved, () => saveAll(drafts));

  const moveTo = (next: Place, isCardDone: boolean) => {
    if (isCardDone) saveAll(drafts);
    setPlace(next);
    grid.current
      ?.querySelector<HTMLElement>(
        `[data-place="${next.row}/${next.box}"], [data-totals="${next.row}"] input`,
      )
      ?.focus();
  };
  /** To the next card of the stack: whoever is not here has none. */
  const toNextCard = (row: number) => moveTo({ row: nextHere(rows, row) ?? row, box: 1 }, true);

  const onKeyDown = (event: KeyboardEvent) => {
    const here = placeOf(event.target);
    const row = here === null ? undefined : rows[here.row];
    if (here === null || row === undefined) return;
    if (event.ctrlKey || event.metaKey || event.altKey || event.key === "Shift") return;
    setLeftOver(null);
    setKeyRefused(null);
    if (event.key === "Enter") {
      event.preventDefault();
      toNextCard(here.row);
      return;
    }
    if (event.key === "ArrowRight" && here.box >= boxesOnCard) {
      event.preventDefault();
      stepAside(event.target, here, boxesOnCard, moveTo);
      return;
    }
    const next = placeAfter(event, here, rows.length, boxesOnCard);
    if (next !== null) {
      event.preventDefault();
      moveTo(next, next.row !== here.row);
      return;
    }
    const isErasing = event.key === "Backspace" || event.key === "Delete";
    if (event.key.length !== 1 && !isErasing) return;
    event.preventDefault();
    if (row.setAside) setKeyRefused({ studentId: row.student.id, why: "aside" });
    else if (isErasing) erase(row, here, event.key);
    else takeKey(row, here, event.key);
  };

  const erase = (row: CardRow, here: Place, key: string) => {
    const isPastEnd = here.box > boxesOnCard;
    if (isPastEnd && key === "Delete") return;
    const box = Math.min(here.box, boxesOnCard);
    setDraft(row, typed(draftOfRow(drafts, row), box, ""));
    if (key === "Backspace" && here.box > 1) moveTo({ ...here, box: here.box - 1 }, false);
  };

  const takeKey = (row: CardRow, here: Place, key: string) => {
    if (here.box > boxesOnCard) {
      // The card is full; what has no box must not bend the last one.
      if (markFor(key) !== "none") setKeyRefused({ studentId: row.student.id, why: "full", key });
      return;
    }
    const after = typed(draftOfRow(drafts, row), here.box, key);
    setDraft(row, after);
    // A key that is no mark stays in its box, so that the message is about the box in sight.
    if (!after.bad.has(here.box)) moveTo({ ...here, box: here.box + 1 }, false);
  };

  const onPaste = (event: ClipboardEvent) => {
    const here = placeOf(event.target);
    if (here === null) return;
    event.preventDefault();
    setKeyRefused(null);
    const block = event.clipboardData.getData("text");
    const sheet = rows.map((row) => ({ draft: draftOfRow(drafts, row), isAside: row.setAside }));
    const result = pasted(sheet, here.row, here.box, block, boxesOnCard);
    const after = new Map(drafts);
    rows.forEach((row, index) => {
      const draft = result.drafts[index];
      if (draft !== undefined && draft !== sheet[index]?.draft) after.set(row.student.id, draft);
    });
    setDrafts(after);
    setLeftOver(result.leftOver);
    saveAll(after);
  };

  const shown = rows.map((row) => draftOfRow(drafts, row));
  const badBoxes = shown.reduce((sum, { bad }) => sum + bad.size, 0);
  const badTotals = shown.filter((draft) => !fits(draft.card, boxesOnCard)).length;
  const state = unsaved ? "unsaved" : badBoxes + badTotals > 0 ? "toCorrect" : "allSaved";
  const numbers = Array.from({ length: boxesOnCard }, (_, index) => index + 1);
  return (
    <div className="cards">
      <p>{say("cards.help")}</p>
      <div className="cards-scroll">
        <table
          ref={grid}
          role="grid"
          aria-label={say("cards.marks")}
          className="cards-grid"
          onKeyDown={onKeyDown}
          onPaste={onPaste}
          onBlur={(event) => {
            if (!event.currentTarget.contains(event.relatedTarget)) saveAll(drafts);
          }}
        >
          <thead>
            <tr>
              <th scope="col">{say("end.student")}</th>
              {numbers.map((number) => (
                <th key={number} scope="col" className={number > cuesDelivered ? "cards-past" : ""}>
                  {number}
                </th>
              ))}
              <th scope="col">{say("cards.count")}</th>
              <th scope="col">{say("cards.way")}</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row, index) => (
              <CardLine
                key={row.student.id}
                sessionId={sessionId}
                row={row}
                index={index}
                draft={draftOfRow(drafts, row)}
                keyRefused={keyRefused?.studentId === row.student.id ? keyRefused : null}
                numbers={numbers}
                place={place}
                cuesDelivered={cuesDelivered}
                onPlace={setPlace}
                onDraft={(next) => setDraft(row, next)}
                onDone={() => toNextCard(index)}
                onAside={(isAside) => aside.mutate({ studentId: row.student.id, aside: isAside })}
              />
            ))}
          </tbody>
        </table>
      </div>
      {leftOver === null ? null : (
        <LeftOverNotice leftOver={leftOver} rows={rows} boxesOnCard={boxesOnCard} />
      )}
      <RefusedNotice refused={refused} rows={rows} />
      <Problem error={save.error ?? aside.error} />
      <div className="cards-foot">
        <Button look="main" isDisabled={!unsaved || save.isPending} onPress={() => saveAll(drafts)}>
          {say("act.save")}
        </Button>
        <span role="status">
          {say(`cards.${state}`, { boxes: badBoxes, cards: badTotals, all: badBoxes + badTotals })}
        </span>
      </div>
    </div>
  );
}

/** The first row below this one whose student is here; null when there is none. */
function nextHere(rows: readonly CardRow[], row: number): number | null {
  const next = rows.findIndex(({ setAside }, index) => index > row && !setAside);
  return next === -1 ? null : next;
}

/** The box, or the place past the last one, that a key or a paste is meant for. */
function placeOf(target: EventTarget): Place | null {
  if (!(target instanceof HTMLElement)) return null;
  const [row, box] = (target.dataset.place ?? "").split("/").map(Number);
  return row === undefined || box === undefined ? null : { row, box };
}

/** From the last box to the place past it, and from there to the row's buttons. */
function stepAside(
  target: EventTarget,
  here: Place,
  boxesOnCard: number,
  moveTo: (next: Place, isCardDone: boolean) => void,
) {
  if (here.box === boxesOnCard) return moveTo({ ...here, box: boxesOnCard + 1 }, false);
  if (target instanceof HTMLElement) target.closest("tr")?.querySelector("button")?.focus();
}
