import { useEffect, useId, useRef, useState } from "react";
import type { CardRow } from "../../../shared/api/records.ts";
import { useTell } from "../../api/queries.ts";
import { Problem } from "../../parts/problem.tsx";
import { focusPlace, Sheet } from "../../parts/sheet/sheet.tsx";
import { SheetFoot } from "../../parts/sheet/sheet-foot.tsx";
import type { Place } from "../../parts/sheet/sheet-keys.ts";
import { useSay } from "../../text/text.tsx";
import { fits } from "./card-draft.ts";
import { CardLine } from "./card-line.tsx";
import { LeftOverNotice, RefusedNotice } from "./left-over-notice.tsx";
import { type CardDrafts, useCardDrafts } from "./use-card-drafts.ts";
import { useCardKeys } from "./use-card-keys.ts";

interface CardGridProps {
  sessionId: string;
  rows: readonly CardRow[];
  boxesOnCard: number;
}

/**
 * All cards of a session as one sheet, made for typing: one key a box, arrows and Enter move as in a
 * spreadsheet, blocks can be pasted. Each row is saved when the hand leaves it or rests.
 */
export function CardGrid({ sessionId, rows, boxesOnCard }: CardGridProps) {
  const say = useSay();
  const helpId = useId();
  const grid = useRef<HTMLTableElement>(null);
  const cards = useCardDrafts(sessionId, rows, boxesOnCard);
  const [place, setPlace] = useState<Place>(() => ({ row: nextHere(rows, -1) ?? 0, box: 1 }));
  const aside = useTell((api, input: { studentId: string; aside: boolean }) =>
    api.sessions.setAside({ sessionId, ...input }),
  );
  // Whoever opens the cards has the stack in hand: typing starts in the first one's first box.
  // biome-ignore lint/correctness/useExhaustiveDependencies: once, when the sheet is opened
  useEffect(() => focusPlace(grid.current, place), []);
  const moveTo = (next: Place, isCardDone: boolean) => {
    if (isCardDone) cards.save();
    setPlace(next);
    focusPlace(grid.current, next);
  };
  /** To the next card of the stack: whoever is not here has none. */
  const toNextCard = (row: number) => moveTo({ row: nextHere(rows, row) ?? row, box: 1 }, true);
  const typing = useCardKeys({ rows, boxesOnCard, cards, moveTo, toNextCard });
  const numbers = Array.from({ length: boxesOnCard }, (_, index) => index + 1);
  return (
    <div className="cards">
      <p id={helpId}>{say("cards.help")}</p>
      <Sheet
        label={say("cards.marks")}
        helpId={helpId}
        grid={grid}
        rowCount={rows.length}
        boxCount={boxesOnCard}
        hasPastEnd
        keys={typing.keys}
        onPaste={typing.onPaste}
        onLeave={() => cards.save()}
        head={
          <tr>
            <th scope="col">{say("end.student")}</th>
            {numbers.map((number) => (
              <th
                key={number}
                scope="col"
                className={number > mostCuesOf(rows) ? "cards-past" : ""}
              >
                {number}
              </th>
            ))}
            <th scope="col">{say("cards.count")}</th>
            <th scope="col">{say("cards.way")}</th>
          </tr>
        }
      >
        {rows.map((row, index) => (
          <CardLine
            key={row.student.id}
            sessionId={sessionId}
            row={row}
            index={index}
            draft={cards.draftOf(row)}
            keyRefused={typing.refusedFor(row.student.id)}
            numbers={numbers}
            place={place}
            cuesDelivered={row.cues}
            onPlace={setPlace}
            onDraft={(next) => cards.setDraft(row, next)}
            onDone={() => toNextCard(index)}
            onAside={(isAside) => aside.mutate({ studentId: row.student.id, aside: isAside })}
          />
        ))}
      </Sheet>
      {typing.leftOver === null ? null : (
        <LeftOverNotice leftOver={typing.leftOver} rows={rows} boxesOnCard={boxesOnCard} />
      )}
      <RefusedNotice refused={cards.refused} rows={rows} />
      <Problem error={cards.error ?? aside.error} />
      <CardFoot cards={cards} rows={rows} boxesOnCard={boxesOnCard} />
    </div>
  );
}

/** How much is saved, and what has to be corrected first. */
function CardFoot(props: { cards: CardDrafts; rows: readonly CardRow[]; boxesOnCard: number }) {
  const say = useSay();
  const { cards, rows, boxesOnCard } = props;
  const shown = rows.map(cards.draftOf);
  const boxes = shown.reduce((sum, { bad }) => sum + bad.size, 0);
  const totals = shown.filter((draft) => !fits(draft.card, boxesOnCard)).length;
  const state = cards.isUnsaved ? "unsaved" : boxes + totals > 0 ? "toCorrect" : "allSaved";
  return (
    <SheetFoot
      state={say(`cards.${state}`, { boxes, cards: totals, all: boxes + totals })}
      onSave={() => cards.save()}
    />
  );
}

/** The first row below this one whose student is here; null when there is none. */
function nextHere(rows: readonly CardRow[], row: number): number | null {
  const next = rows.findIndex(({ setAside }, index) => index > row && !setAside);
  return next === -1 ? null : next;
}

const mostCuesOf = (rows: readonly CardRow[]): number =>
  Math.max(0, ...rows.map(({ cues }) => cues));
