import { type ClipboardEvent, type KeyboardEvent, useRef, useState } from "react";
import type { Card, CardRow } from "../../../shared/api/records.ts";
import type { MarkValue } from "../../../shared/session/event.ts";
import { useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Problem } from "../../parts/problem.tsx";
import { type Say, useSay } from "../../text/text.tsx";
import { boxesOf, type CardDraft, draftOf, filledBoxes, pasted, typed } from "./card-draft.ts";
import { SheetBox } from "./sheet-box.tsx";
import { type Place, placeAfter } from "./sheet-keys.ts";
import { TotalsFields } from "./totals-fields.tsx";
import { useSaveAtRest } from "./use-save-at-rest.ts";

interface CardGridProps {
  sessionId: string;
  rows: readonly CardRow[];
  boxesOnCard: number;
  cuesDelivered: number;
}

const signs: Record<MarkValue, string> = { on: "+", off: "–", none: "" };
const isSame = (one: Card, other: Card) => JSON.stringify(one) === JSON.stringify(other);

/**
 * All cards of a session as one sheet, made for typing: one key a box, arrows, Tab and Enter move as in
 * a spreadsheet, blocks can be pasted. Each row is saved when the hand leaves it or rests.
 */
export function CardGrid({ sessionId, rows, boxesOnCard, cuesDelivered }: CardGridProps) {
  const say = useSay();
  const grid = useRef<HTMLTableElement>(null);
  const [drafts, setDrafts] = useState(() => rows.map(({ card }) => draftOf(card)));
  const [saved, setSaved] = useState(() => rows.map(({ card }) => card));
  const [place, setPlace] = useState<Place>({ row: 0, box: 1 });
  const [leftOver, setLeftOver] = useState<{ rows: number; boxes: number } | null>(null);
  const save = useTell((api, cards: { studentId: string; card: Card }[]) =>
    api.records.saveCards({ sessionId, cards }),
  );
  const unsaved = drafts.some(({ card }, index) => !isSame(card, saved[index] ?? card));

  const setDraft = (row: number, draft: CardDraft) =>
    setDrafts((now) => now.map((each, index) => (index === row ? draft : each)));

  const saveAll = (now: readonly CardDraft[]) => {
    const changed = now.flatMap(({ card }, index) => {
      const row = rows[index];
      const before = saved[index];
      const cannotBe = card.kind === "totals" && card.on + card.off > boxesOnCard;
      if (row === undefined || before === undefined || isSame(card, before) || cannotBe) return [];
      return [{ studentId: row.student.id, card }];
    });
    if (changed.length === 0) return;
    const written = new Map(changed.map(({ studentId, card }) => [studentId, card]));
    save.mutate(changed, {
      onSuccess: () =>
        setSaved((then) =>
          then.map((card, index) => written.get(rows[index]?.student.id ?? "") ?? card),
        ),
    });
  };
  useSaveAtRest(drafts, unsaved, () => saveAll(drafts));

  const moveTo = (next: Place, isCardDone = next.row !== place.row) => {
    if (isCardDone) saveAll(drafts);
    setPlace(next);
    grid.current?.querySelector<HTMLElement>(`[data-place="${next.row}/${next.box}"]`)?.focus();
  };

  const onKeyDown = (event: KeyboardEvent) => {
    if (!(event.target instanceof HTMLElement) || event.target.dataset.place === undefined) return;
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const draft = drafts[place.row];
    if (draft === undefined) return;
    const next = placeAfter(event, place, rows.length, boxesOnCard);
    if (next !== null) {
      event.preventDefault();
      // Enter ends a card, also the last one, below which there is no other to move to.
      moveTo(next, event.key === "Enter" || next.row !== place.row);
      return;
    }
    if (event.key === "Backspace" || event.key === "Delete") {
      event.preventDefault();
      if (rows[place.row]?.setAside) return;
      setDraft(place.row, typed(draft, place.box, ""));
      if (event.key === "Backspace" && place.box > 1) moveTo({ ...place, box: place.box - 1 });
      return;
    }
    if (event.key.length !== 1 || rows[place.row]?.setAside) return;
    event.preventDefault();
    const after = typed(draft, place.box, event.key);
    setDraft(place.row, after);
    // A key that is no mark stays in its box, so that the message is about the box in sight.
    if (!after.bad.has(place.box) && place.box < boxesOnCard) {
      moveTo({ ...place, box: place.box + 1 });
    }
  };

  const onPaste = (event: ClipboardEvent) => {
    if (!(event.target instanceof HTMLElement) || event.target.dataset.place === undefined) return;
    event.preventDefault();
    const block = event.clipboardData.getData("text");
    const result = pasted(drafts, place.row, place.box, block, boxesOnCard);
    setDrafts([...result.drafts]);
    setLeftOver(
      result.rowsLeftOver + result.boxesLeftOver === 0
        ? null
        : { rows: result.rowsLeftOver, boxes: result.boxesLeftOver },
    );
    saveAll(result.drafts);
  };

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
            {rows.map((row, index) => {
              const draft = drafts[index] ?? draftOf(row.card);
              return (
                <Row
                  key={row.student.id}
                  row={row}
                  index={index}
                  draft={draft}
                  numbers={numbers}
                  place={place}
                  cuesDelivered={cuesDelivered}
                  boxesOnCard={boxesOnCard}
                  onPlace={setPlace}
                  onDraft={(next) => setDraft(index, next)}
                />
              );
            })}
          </tbody>
        </table>
      </div>
      {leftOver === null ? null : <Notice kind="caution">{say("cards.leftOver", leftOver)}</Notice>}
      <Problem error={save.error} />
      <div className="cards-foot">
        <Button look="main" isDisabled={!unsaved || save.isPending} onPress={() => saveAll(drafts)}>
          {say("act.save")}
        </Button>
        <span role="status">{say(unsaved ? "cards.unsaved" : "cards.allSaved")}</span>
      </div>
    </div>
  );
}

interface RowProps {
  row: CardRow;
  index: number;
  draft: CardDraft;
  numbers: readonly number[];
  place: Place;
  cuesDelivered: number;
  boxesOnCard: number;
  onPlace: (place: Place) => void;
  onDraft: (draft: CardDraft) => void;
}

function Row(props: RowProps) {
  const say = useSay();
  const { row, index, draft, numbers, place, cuesDelivered, boxesOnCard } = props;
  const name = row.student.name;
  const isTotals = draft.card.kind === "totals";
  const boxes = boxesOf(draft, numbers.length);
  const filled = filledBoxes(draft);
  const firstBad = [...draft.bad][0];
  return (
    <>
      <tr className={row.setAside ? "cards-aside" : ""}>
        <th scope="row">
          {name}
          {row.setAside ? <span className="cards-note"> · {say("tiles.aside")}</span> : null}
        </th>
        {draft.card.kind === "totals" ? (
          <td colSpan={numbers.length}>
            <TotalsFields
              name={name}
              on={draft.card.on}
              off={draft.card.off}
              most={boxesOnCard}
              onChange={(on, off) =>
                props.onDraft({ card: { kind: "totals", on, off }, bad: new Map() })
              }
            />
          </td>
        ) : (
          numbers.map((number) => (
            <SheetBox
              key={number}
              label={boxLabel(say, name, number, boxes[number - 1] ?? "none", draft)}
              text={draft.bad.get(number) ?? signs[boxes[number - 1] ?? "none"]}
              isBad={draft.bad.has(number)}
              isPast={number > cuesDelivered}
              placeId={`${index}/${number}`}
              isHere={place.row === index && place.box === number}
              onFocus={() => props.onPlace({ row: index, box: number })}
            />
          ))
        )}
        <td className="cards-count">{say("cards.filled", { filled, cues: cuesDelivered })}</td>
        <td>
          <Button
            look="quiet"
            onPress={() =>
              props.onDraft(
                draftOf(
                  isTotals ? { kind: "boxes", boxes: [] } : { kind: "totals", on: 0, off: 0 },
                ),
              )
            }
            aria-label={say(isTotals ? "cards.useBoxesNamed" : "cards.useTotalsNamed", { name })}
          >
            {say(isTotals ? "cards.useBoxes" : "cards.useTotals")}
          </Button>
        </td>
      </tr>
      {firstBad !== undefined ? (
        <tr>
          <td colSpan={numbers.length + 3} className="cards-problem" role="alert">
            {say("refused.box-bad-mark", { box: firstBad[0], found: firstBad[1] })}
          </td>
        </tr>
      ) : filled > 0 && filled !== cuesDelivered && place.row !== index ? (
        <tr>
          <td colSpan={numbers.length + 3} className="cards-note">
            {say("cards.differs", { name, filled, cues: cuesDelivered })}
          </td>
        </tr>
      ) : null}
    </>
  );
}

function boxLabel(say: Say, name: string, box: number, mark: MarkValue, draft: CardDraft): string {
  const state = draft.bad.has(box) ? "bad" : mark;
  return say("cards.boxLabel", { name, box, state });
}
