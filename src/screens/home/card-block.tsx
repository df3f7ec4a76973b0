import { useId, useRef, useState } from "react";
import type { CardForDay } from "../../../shared/api/home-cards.ts";
import { printedRating, type Rating } from "../../../shared/home/home-card.ts";
import { cardOfDay } from "../../../shared/home/home-week.ts";
import type { HomeCard, HomeCardDay } from "../../../shared/home/kept-card.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { TextField } from "../../parts/field.tsx";
import { focusPlace, Sheet } from "../../parts/sheet/sheet.tsx";
import { SheetBox } from "../../parts/sheet/sheet-box.tsx";
import type { Place } from "../../parts/sheet/sheet-keys.ts";
import { type Say, useFormats, useSay } from "../../text/text.tsx";
import { rated, ratingOfKey } from "./card-days.ts";

interface CardBlockProps {
  student: Pick<Student, "name">;
  card: CardForDay;
  typed: HomeCardDay;
  /** Id of the text that says which keys do what. */
  helpId: string;
  onChange: (typed: HomeCardDay) => void;
  /** Enter: the card is done. */
  onDone: () => void;
  onLeave: () => void;
}

/** One student's card as it lies on the desk: lessons down, goals across, one key a box. */
export function CardBlock(props: CardBlockProps) {
  const say = useSay();
  const { student, card, typed, onChange } = props;
  const { name } = student;
  const { goals, periods, scale } = card.version.card;
  const grid = useRef<HTMLTableElement>(null);
  const problemId = useId();
  const [here, setHere] = useState<Place>({ row: 0, box: 1 });
  const [problem, setProblem] = useState<string | null>(null);
  const cellAt = ({ row, box }: Place) => row * goals.length + box - 1;
  const goTo = (place: Place) => focusPlace(grid.current, place);
  const step = ({ row, box }: Place): Place => {
    if (box < goals.length) return { row, box: box + 1 };
    return row < periods.length - 1 ? { row: row + 1, box: 1 } : { row, box };
  };
  const keys = {
    onAny: () => setProblem(null),
    onMove: goTo,
    onEnter: props.onDone,
    onErase: (place: Place) => onChange(rated(typed, cellAt(place), null)),
    onType: (place: Place, key: string) => {
      const rating = ratingOfKey(key, scale);
      if (rating === undefined) {
        setProblem(say(scale.kind === "scale" ? "homeCards.notOnScale" : "homeCards.notYesNo"));
        return;
      }
      onChange(rated(typed, cellAt(place), rating));
      goTo(step(place));
    },
  };
  return (
    <section className="home-card" aria-label={name}>
      <div className="home-card-sheet">
        <h2>{name}</h2>
        <Sheet
          label={say("homeCards.sheet", { name })}
          helpId={props.helpId}
          grid={grid}
          rowCount={periods.length}
          boxCount={goals.length}
          keys={keys}
          onLeave={props.onLeave}
          head={
            <tr>
              <td />
              {goals.map((goal) => (
                <th key={goal} scope="col">
                  {goal}
                </th>
              ))}
            </tr>
          }
        >
          {periods.map((period, row) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a lesson is its place on the card
            <tr key={row}>
              <th scope="row">{period}</th>
              {goals.map((goal, at) => {
                const rating = typed.ratings[row * goals.length + at] ?? null;
                const shown = wordOf(rating, scale, say);
                return (
                  <SheetBox
                    key={goal}
                    label={say("homeCards.box", {
                      name,
                      period,
                      goal,
                      value: shown ?? say("homeCards.empty"),
                    })}
                    text={shown ?? ""}
                    isBad={false}
                    isPast={false}
                    placeId={`${row}/${at + 1}`}
                    isHere={here.row === row && here.box === at + 1}
                    onFocus={() => setHere({ row, box: at + 1 })}
                    problemId={problemId}
                  />
                );
              })}
            </tr>
          ))}
        </Sheet>
        <Sums card={card} typed={typed} />
        <p id={problemId} className="home-card-problem" role="alert">
          {problem}
        </p>
      </div>
      <Words {...props} />
    </section>
  );
}

/** What a box shows: the figure that is circled on paper, or a letter; null for an empty one. */
function wordOf(rating: Rating | null, scale: HomeCard["scale"], say: Say): string | null {
  if (rating === null) return null;
  if (scale.kind === "scale") return String(printedRating(rating, scale.goodEnd));
  return say(rating === 4 ? "homeCards.yes" : "homeCards.no");
}

/** Home points and how much of the card was rated, as it is typed. */
function Sums({ card, typed }: { card: CardForDay; typed: HomeCardDay }) {
  const say = useSay();
  const formats = useFormats();
  const { points, share, rated: boxes, cells } = cardOfDay({ card: card.version.card, typed });
  return (
    <p className="home-card-sums">
      {points === null || share === null
        ? say("homeCards.noCard")
        : say("homeCards.sums", { points, rated: boxes, cells, share: formats.percent(share) })}
    </p>
  );
}

const texts = ["wentWell", "tomorrow", "homework"] as const;
const mostLetters = 300;

/** What was written by hand; what went well comes first, as on the card. */
function Words({ card, typed, onChange }: CardBlockProps) {
  const say = useSay();
  const shown = texts.filter((text) => text !== "homework" || card.version.card.homework);
  return (
    <div className="home-card-words">
      {shown.map((text) => (
        <TextField
          key={text}
          label={say(`homeCards.${text}`)}
          value={typed[text]}
          maxLength={mostLetters}
          onChange={(value) => onChange({ ...typed, [text]: value })}
        />
      ))}
    </div>
  );
}
