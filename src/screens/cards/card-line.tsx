import { useState } from "react";
import type { CardRow } from "../../../shared/api/records.ts";
import { Button } from "../../parts/button.tsx";
import { SheetBox } from "../../parts/sheet/sheet-box.tsx";
import type { Place } from "../../parts/sheet/sheet-keys.ts";
import { useSay } from "../../text/text.tsx";
import {
  boxesOf,
  type CardDraft,
  cardToKeep,
  filledBoxes,
  inOtherWay,
  withTotals,
} from "./card-draft.ts";
import { CardHistory } from "./card-history.tsx";
import { type BoxStanding, signs } from "./signs.ts";
import { TotalsFields } from "./totals-fields.tsx";

/** Why the last key changed nothing: the card is full, or its student is not here. */
export type KeyRefused = { readonly why: "full"; readonly key: string } | { readonly why: "aside" };

interface CardLineProps {
  sessionId: string;
  row: CardRow;
  index: number;
  draft: CardDraft;
  keyRefused: KeyRefused | null;
  numbers: readonly number[];
  place: Place;
  cuesDelivered: number;
  onPlace: (place: Place) => void;
  onDraft: (draft: CardDraft) => void;
  onDone: () => void;
  onAside: (isAside: boolean) => void;
}

/** One student's card in the sheet, with what is to be said about it below. */
export function CardLine(props: CardLineProps) {
  const say = useSay();
  const [isHistoryOpen, setHistoryOpen] = useState(false);
  const { row, index, draft, numbers, place, cuesDelivered } = props;
  const { name } = row.student;
  const most = numbers.length;
  const boxes = boxesOf(draft, most);
  const filled = filledBoxes(draft);
  const standing = (box: number): BoxStanding => {
    const mark = boxes[box - 1] ?? "none";
    return mark === "none" && row.awayBoxes.includes(box) ? "away" : mark;
  };
  const stateOf = (box: number) => (draft.bad.has(box) ? "bad" : standing(box));
  // Tab leaves the sheet: only the buttons of the row where the hand is stand on its way.
  const takeRow = () => {
    if (place.row !== index) props.onPlace({ row: index, box: 1 });
  };
  return (
    <>
      <tr className={row.setAside ? "cards-aside" : ""}>
        <th scope="row">
          {name}
          {row.setAside ? <span className="cards-note"> · {say("roll.absent")}</span> : null}
        </th>
        {draft.card.kind === "totals" ? (
          <td colSpan={most} data-totals={index} onFocus={takeRow}>
            {row.setAside ? (
              say("cards.totalsAre", { on: draft.card.on, off: draft.card.off })
            ) : (
              <TotalsFields
                name={name}
                on={draft.card.on}
                off={draft.card.off}
                most={most}
                mayBeEmpty={filled === 0 && cardToKeep(draft).kind === "boxes"}
                onChange={(on, off) => props.onDraft(withTotals(draft, on, off))}
                onDone={props.onDone}
              />
            )}
          </td>
        ) : (
          numbers.map((number) => (
            <SheetBox
              key={number}
              label={say("cards.boxLabel", { name, box: number, state: stateOf(number) })}
              text={draft.bad.get(number) ?? signs[standing(number)]}
              isBad={draft.bad.has(number)}
              problemId={problemIdOf(row)}
              isPast={number > cuesDelivered}
              placeId={`${index}/${number}`}
              isHere={place.row === index && place.box === number}
              onFocus={() => props.onPlace({ row: index, box: number })}
            />
          ))
        )}
        <PastEnd {...props} filled={filled} />
        <td onFocus={takeRow}>
          <div className="cards-ways">
            {row.corrections === 0 ? null : (
              <Button
                look="quiet"
                excludeFromTabOrder={place.row !== index}
                aria-expanded={isHistoryOpen}
                onPress={() => setHistoryOpen(!isHistoryOpen)}
                aria-label={say("cards.correctionsNamed", { name, count: row.corrections })}
              >
                {say("cards.corrections", { count: row.corrections })}
              </Button>
            )}
            <WaysOfEntry {...props} isEmpty={filled === 0 && draft.bad.size === 0} />
          </div>
        </td>
      </tr>
      <Remark {...props} filled={filled} />
      {isHistoryOpen ? (
        <tr>
          <td colSpan={most + 3} className="cards-said">
            <CardHistory
              sessionId={props.sessionId}
              student={row.student}
              count={row.corrections}
            />
          </td>
        </tr>
      ) : null}
    </>
  );
}

/** How many boxes are filled; and where the next key would go once the last one is. */
function PastEnd(props: CardLineProps & { filled: number }) {
  const say = useSay();
  const { row, index, draft, numbers, place, cuesDelivered, filled } = props;
  const text = say("cards.filled", { filled, cues: cuesDelivered });
  if (draft.card.kind === "totals") return <td className="cards-count">{text}</td>;
  const box = numbers.length + 1;
  const isHere = place.row === index && place.box === box;
  return (
    <td
      role="gridcell"
      className="cards-count"
      data-place={`${index}/${box}`}
      tabIndex={isHere ? 0 : -1}
      aria-label={say("cards.pastEnd", { name: row.student.name, filled, cues: cuesDelivered })}
      onFocus={() => props.onPlace({ row: index, box })}
    >
      {text}
    </td>
  );
}

function WaysOfEntry(props: CardLineProps & { isEmpty: boolean }) {
  const say = useSay();
  const { row, index, place, draft, isEmpty, onAside, onDraft } = props;
  const { name } = row.student;
  const excludeFromTabOrder = place.row !== index;
  if (row.setAside) {
    return (
      <Button
        look="quiet"
        excludeFromTabOrder={excludeFromTabOrder}
        onPress={() => onAside(false)}
        aria-label={say("roll.hereNamed", { name })}
      >
        {say("roll.markHere")}
      </Button>
    );
  }
  const isTotals = draft.card.kind === "totals";
  return (
    <>
      <Button
        look="quiet"
        excludeFromTabOrder={excludeFromTabOrder}
        onPress={() => onDraft(inOtherWay(draft))}
        aria-label={say(isTotals ? "cards.useBoxesNamed" : "cards.useTotalsNamed", { name })}
      >
        {say(isTotals ? "cards.useBoxes" : "cards.useTotals")}
      </Button>
      {isEmpty && !isTotals ? (
        <Button
          look="quiet"
          excludeFromTabOrder={excludeFromTabOrder}
          onPress={() => onAside(true)}
          aria-label={say("roll.absentNamed", { name })}
        >
          {say("roll.markAbsent")}
        </Button>
      ) : null}
    </>
  );
}

/** Under which id it stands what is wrong with a card, for the boxes that it is about. */
const problemIdOf = ({ student }: CardRow): string => `problem-${student.id}`;

/** The one thing to say about a card, what hinders first. */
function Remark(props: CardLineProps & { filled: number }) {
  const say = useSay();
  const { row, index, draft, keyRefused, numbers, place, cuesDelivered, filled } = props;
  const { name } = row.student;
  const said = (text: string, isProblem: boolean) => (
    <tr>
      <td colSpan={numbers.length + 3} className={isProblem ? "cards-problem" : "cards-note"}>
        {isProblem ? (
          <span id={problemIdOf(row)} role="alert">
            {text}
          </span>
        ) : (
          text
        )}
      </td>
    </tr>
  );
  if (keyRefused?.why === "full") {
    const { key } = keyRefused;
    return said(say("cards.noMoreBoxes", { name, boxes: numbers.length, key }), true);
  }
  const firstBad = [...draft.bad].sort(([one], [other]) => one - other)[0];
  if (firstBad !== undefined) {
    return said(say("refused.box-bad-mark", { box: firstBad[0], found: firstBad[1] }), true);
  }
  if (row.setAside) return said(say("cards.asideHelp", { name }), keyRefused !== null);
  const marks = draft.card.kind === "boxes" ? draft.card.boxes.length : filled;
  // Said while the cursor is elsewhere, and for as long as the mark stands: it is kept and counts nowhere.
  if (marks > cuesDelivered && place.row !== index) {
    return said(say("cards.moreThanCues", { name, marks, cues: cuesDelivered }), true);
  }
  return null;
}
