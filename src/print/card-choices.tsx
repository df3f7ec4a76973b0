import { Choices, Switch } from "../parts/field.tsx";
import { DayField } from "../parts/moment-field.tsx";
import { Notice } from "../parts/notice.tsx";
import { today } from "../text/device-time.ts";
import { useSay } from "../text/text.tsx";
import { type CardLayout, type CardsPerPage, cardsPerPage } from "./card-layout.ts";
import { type CardOptions, holders, looks, prints } from "./card-options.ts";

/** So many sessions of one plan on one day are offered; more when there were more already. */
const usualPlaces = 3;

/** How many cards on a page, how they look, for whom and for which day. */
export function CardChoices({ options, place }: { options: CardOptions; place: number }) {
  const say = useSay();
  const places = Array.from({ length: Math.max(usualPlaces, place) }, (_, index) => index + 1);
  return (
    <>
      <Choices
        label={say("print.cards.perPage")}
        inRow
        value={String(options.perPage)}
        choices={cardsPerPage.map(String).map((value) => ({ value, label: value }))}
        onChange={options.setPerPage}
      />
      <Choices
        label={say("print.cards.look")}
        inRow
        value={options.look}
        choices={looks.map((value) => ({ value, label: say(`print.cards.look.${value}`) }))}
        onChange={options.setLook}
      />
      <Choices
        label={say("print.cards.print")}
        inRow
        value={options.print}
        choices={prints.map((value) => ({ value, label: say(`print.cards.print.${value}`) }))}
        onChange={options.setPrint}
      />
      <Choices
        label={say("print.cards.for")}
        inRow
        value={options.who}
        choices={holders.map((value) => ({ value, label: say(`print.cards.for.${value}`) }))}
        onChange={options.setWho}
      />
      <div className="print-day">
        <Switch
          label={say("print.cards.withDate")}
          value={options.day !== null}
          onChange={(on) => (on ? options.setDay(today()) : options.leaveDayOpen())}
        />
        {options.day === null ? null : (
          <DayField label={say("print.cards.date")} value={options.day} onChange={options.setDay} />
        )}
      </div>
      {options.day === null ? null : (
        <Choices
          label={say("print.cards.place")}
          help={say("print.cards.placeHelp")}
          inRow
          value={String(place)}
          choices={places.map(String).map((value) => ({ value, label: value }))}
          onChange={options.setPlace}
        />
      )}
    </>
  );
}

interface CardNotesProps {
  wished: CardsPerPage;
  layout: CardLayout;
  boxes: number;
  code: string;
}

/** Why the sheets differ from what was chosen, and what the code on the cards is for. */
export function CardNotes({ wished, layout, boxes, code }: CardNotesProps) {
  const say = useSay();
  return (
    <>
      {layout.perPage < wished ? (
        <Notice title={say("print.cards.fewer", { wished, used: layout.perPage })}>
          {say("print.cards.fewerWhy", { boxes })}
        </Notice>
      ) : null}
      {layout.cardsEach > 1 ? (
        <Notice>{say("print.cards.several", { cards: layout.cardsEach, boxes })}</Notice>
      ) : null}
      <p className="print-lead">{say("print.cards.code", { code })}</p>
    </>
  );
}
