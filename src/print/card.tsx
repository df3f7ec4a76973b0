import { Fragment, type ReactNode } from "react";
import { Picture } from "../class/pictures/picture.tsx";
import type { PictureName } from "../class/pictures/picture-names.ts";
import { useSay } from "../text/text.tsx";
import { boxGap, type CardLayout, type CardLook, lineHeight, nameShare } from "./card-layout.ts";
import { PlainSymbol } from "./symbols.tsx";
import "./card.css";

export interface PrintedCard {
  /** Empty for a blank card, which has a line instead. */
  readonly name: string;
  /** The student's own picture. */
  readonly picture: PictureName | null;
  readonly target: string;
  /** The date in words; null leaves a line to write on. */
  readonly day: string | null;
  readonly code: string;
  readonly look: CardLook;
  readonly layout: CardLayout;
  readonly firstBox: number;
  readonly lastBox: number;
  /** Which of the student's cards this is, from 1. */
  readonly part: number;
}

/** One student's card. Nothing on it tells when cues come: boxes are numbered, never timed. */
export function Card({ card }: { card: PrintedCard }) {
  const say = useSay();
  const { layout, name } = card;
  const { type, padding, gap } = layout;
  const label = name === "" ? say("print.card.blank") : say("print.card.of", { name });
  return (
    <div
      role="group"
      aria-label={label}
      className="card"
      style={{
        padding: `${padding}mm`,
        rowGap: `${gap}mm`,
        fontSize: `${type.small}pt`,
        lineHeight: String(lineHeight),
      }}
    >
      <Head card={card} />
      <p style={{ fontSize: `${type.target}pt` }}>{card.target}</p>
      {card.look === "words" ? (
        <p className="card-legend">
          <span>{say("print.card.yes")}</span>
          <span>{say("print.card.no")}</span>
        </p>
      ) : (
        <SymbolLegend sizeMm={layout.picture} />
      )}
      <Boxes card={card} />
      <Foot card={card} />
    </div>
  );
}

function Head({ card }: { card: PrintedCard }) {
  const say = useSay();
  const { name, picture, day, look, layout } = card;
  return (
    <div className={layout.large ? "card-head card-head-large" : "card-head"}>
      <strong
        className={name === "" ? "card-name card-line" : "card-name"}
        style={{
          fontSize: `${layout.type.name}pt`,
          width: layout.large ? "100%" : `${100 * nameShare}%`,
          minHeight: `${layout.line}mm`,
        }}
      >
        {picture === null ? null : (
          <span
            className="card-portrait"
            style={{ width: `${layout.portrait}mm`, height: `${layout.portrait}mm` }}
          >
            <Picture name={picture} />
          </span>
        )}
        {name === "" ? <span className="card-label">{say("print.card.name")}</span> : name}
      </strong>
      <span className="card-date" style={{ minHeight: `${layout.line}mm` }}>
        {look === "symbols" ? (
          <PlainSymbol name="day" sizeMm={layout.picture * 0.8} named />
        ) : (
          <span>{say("print.card.date")}</span>
        )}
        {day === null ? <span className="card-write" /> : <span>{day}</span>}
      </span>
    </div>
  );
}

/** Hear the chime; then it is the pencil or the cloud. */
function SymbolLegend({ sizeMm }: { sizeMm: number }) {
  const say = useSay();
  return (
    <div className="card-legend card-legend-symbols">
      <PlainSymbol name="chime" sizeMm={sizeMm} named />
      <span aria-hidden="true">→</span>
      <PlainSymbol name="working" sizeMm={sizeMm} named />
      <span>{say("print.card.or")}</span>
      <PlainSymbol name="idle" sizeMm={sizeMm} named />
    </div>
  );
}

function Boxes({ card }: { card: PrintedCard }) {
  const { layout, firstBox, lastBox, look } = card;
  const { box, boxPicture } = layout;
  const numbers = Array.from({ length: lastBox - firstBox + 1 }, (_, index) => firstBox + index);
  return (
    <ol
      className="card-boxes"
      style={{
        gridTemplateColumns: `repeat(${box.columns}, ${box.width}mm)`,
        gridAutoRows: `${box.height}mm`,
        gap: `${boxGap}mm`,
      }}
    >
      {numbers.map((number) => (
        <li key={number} className="card-box">
          <span className="card-number">{number}</span>
          {look === "symbols" ? (
            <span className="card-pictures">
              <PlainSymbol name="working" sizeMm={boxPicture} />
              <PlainSymbol name="idle" sizeMm={boxPicture} />
            </span>
          ) : null}
        </li>
      ))}
    </ol>
  );
}

/** A goal to set before, and the count afterwards: pictures or words with room to write. */
function Foot({ card }: { card: PrintedCard }) {
  const say = useSay();
  const { look, layout, part, code } = card;
  const write = <span className="card-write" />;
  return (
    <div
      className={layout.footLines === 1 ? "card-foot" : "card-foot card-foot-lines"}
      style={{ minHeight: `${layout.footLines * layout.line}mm` }}
    >
      <span className="card-goal">
        {look === "symbols" ? (
          <>
            <PlainSymbol name="goal" sizeMm={layout.picture} named />
            {write}
            <PlainSymbol name="working" sizeMm={layout.picture} named />
          </>
        ) : (
          withWrite(say("print.card.goal", { write: gap }), write)
        )}
      </span>
      <span className="card-goal">
        {look === "symbols" ? <PlainSymbol name="working" sizeMm={layout.picture} named /> : null}
        {withWrite(
          look === "symbols"
            ? say("print.card.gotShort", { write: gap })
            : say("print.card.got", { write: gap }),
          write,
        )}
      </span>
      <span>
        {layout.cardsEach > 1 ? `${say("print.card.part", { part, of: layout.cardsEach })}  ` : ""}
        {say("print.card.code", { code })}
      </span>
    </div>
  );
}

/** Stands for a place to write in, until it is one. */
const gap = "\u0000";

/** A sentence with its gaps as places to write in. */
function withWrite(sentence: string, write: ReactNode): ReactNode[] {
  return sentence.split(gap).flatMap((words, at) => [
    // biome-ignore lint/suspicious/noArrayIndexKey: a gap is its place in the sentence
    ...(at === 0 ? [] : [<Fragment key={at}>{write}</Fragment>]),
    words.trim() === "" ? "" : <span key={words}>{words.trim()}</span>,
  ]);
}
