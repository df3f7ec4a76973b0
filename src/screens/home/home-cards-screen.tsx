import { useEffect, useId, useRef } from "react";
import { Link, useParams } from "react-router";
import type { CardForDay } from "../../../shared/api/home-cards.ts";
import { dayNumber, dayText } from "../../../shared/calendar/calendar.ts";
import { schoolDays } from "../../../shared/calendar/school-days.ts";
import type { Group, Student } from "../../../shared/roster/roster.ts";
import {
  useAsk,
  useDaysOff,
  useGroups,
  useStudents,
  useTimetable,
  useWeekdays,
} from "../../api/queries.ts";
import { useCardsOfDay } from "../../class/home/home-cards-link.tsx";
import { Button } from "../../parts/button.tsx";
import { DayField } from "../../parts/moment-field.tsx";
import { Page } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { SheetFoot } from "../../parts/sheet/sheet-foot.tsx";
import { useAddress } from "../../parts/use-address.ts";
import { useFormats, useSay } from "../../text/text.tsx";
import { CardBlock } from "./card-block.tsx";
import { useTypedCards } from "./use-typed-cards.ts";
import "./home.css";

/** The cards of a group that came back on a day, typed in one after the other. */
export function HomeCardsScreen() {
  const say = useSay();
  const { groupId = "" } = useParams();
  const [params, change] = useAddress();
  const group = useGroups().data?.find(({ id }) => id === groupId);
  const today = useTimetable().data?.today;
  const day = params.get("day") ?? today;
  if (group === undefined || day === undefined) {
    return <Page title={say("homeCards.link")}>{say("wait")}</Page>;
  }
  return (
    <Page
      title={say("homeCards.title", { group: group.name })}
      back={<Link to={`/groups/${group.id}`}>{group.name}</Link>}
      lead={say("homeCards.lead")}
      actions={
        <>
          <Link to={`/print/home-cards/${group.id}?day=${day}`}>{say("homeCards.print")}</Link>
          <Link to={`/print/home-week/${group.id}`}>{say("homeCards.weeks")}</Link>
        </>
      }
    >
      <div className="home-row">
        <DayField
          label={say("homeCards.day")}
          value={day}
          onChange={(next) => change({ day: next })}
        />
        {day === today ? (
          <DayBefore group={group} today={day} onGo={(next) => change({ day: next })} />
        ) : null}
      </div>
      <DayOfCards key={day} group={group} day={day} />
    </Page>
  );
}

/**
 * The school day before today, where cards of it are not typed in: whoever types them in the next morning is not to
 * put them under today's date. Beside the day, so that no box moves when it comes.
 */
function DayBefore(props: { group: Group; today: string; onGo: (day: string) => void }) {
  const { group, today, onGo } = props;
  const weekdays = useWeekdays(group.id);
  const daysOff = useDaysOff().data;
  const now = dayNumber(today);
  const [from, to] = [dayText(now - daysLooked), dayText(now - 1)];
  const before = daysOff && schoolDays({ from, to, daysOff, weekdays }).at(-1);
  return before === undefined ? null : <Untyped groupId={group.id} day={before} onGo={onGo} />;
}

/** So many days back a school day is looked for: a long weekend. */
const daysLooked = 5;

function Untyped(props: { groupId: string; day: string; onGo: (day: string) => void }) {
  const say = useSay();
  const formats = useFormats();
  const { groupId, day, onGo } = props;
  const cards = useCardsOfDay(groupId, day) ?? [];
  const count = cards.filter(({ typed }) => typed === null).length;
  if (count === 0) return null;
  return (
    <div className="home-beside">
      <Button look="quiet" onPress={() => onGo(day)}>
        {say("homeCards.untyped", { count, day: formats.fullDay(day) })}
      </Button>
    </div>
  );
}

function DayOfCards({ group, day }: { group: Group; day: string }) {
  const say = useSay();
  const students = useStudents(group.id);
  const cards = useAsk("home", ["cards-of-day", group.id, day], (api) =>
    api.homeCards.ofDay({ groupId: group.id, day }),
  );
  if (students.data === undefined || cards.data === undefined) {
    return <Problem error={students.error ?? cards.error} />;
  }
  if (cards.data.length === 0) {
    return (
      <p>
        {say("homeCards.none")} <Link to={`/groups/${group.id}`}>{group.name}</Link>
      </p>
    );
  }
  return (
    <Typing cards={cards.data} students={students.data} day={day} look={() => cards.refetch()} />
  );
}

function Typing(props: {
  cards: readonly CardForDay[];
  students: readonly Student[];
  day: string;
  look: () => Promise<unknown>;
}) {
  const say = useSay();
  const { cards, students, day, look } = props;
  const helpId = useId();
  const blocks = useRef<HTMLDivElement>(null);
  const typing = useTypedCards(cards, day, look);
  const { saveNow } = typing;
  const names = new Map(students.map(({ id, name }) => [id, name]));
  const goToCard = (at: number) => {
    const grids = blocks.current?.querySelectorAll<HTMLElement>("[data-place='0/1']");
    const next = grids?.[at];
    next?.focus();
    next?.closest("section")?.scrollIntoView({ block: "nearest" });
    if (next === undefined) saveNow();
  };
  useEffect(() => {
    // The page is opened to type the first card; the frame around it takes the focus of a new page first.
    const frame = requestAnimationFrame(() =>
      blocks.current?.querySelector<HTMLElement>("[data-place='0/1']")?.focus(),
    );
    return () => cancelAnimationFrame(frame);
  }, []);
  return (
    <>
      <p id={helpId} className="home-help">
        {say("homeCards.help")}
      </p>
      <div ref={blocks} className="home-cards">
        {cards.map((each, at) => {
          const { card, typed } = typing.shown(each);
          return (
            <CardBlock
              key={card.studentId}
              student={{ name: names.get(card.studentId) ?? "" }}
              card={card}
              typed={typed}
              helpId={helpId}
              onChange={(one) => typing.change(card, one)}
              onDone={() => goToCard(at + 1)}
              onLeave={saveNow}
            />
          );
        })}
      </div>
      <Problem error={typing.error} />
      <SheetFoot
        state={say(
          typing.isSaving
            ? "homeCards.saving"
            : typing.isUnsaved
              ? "homeCards.unsaved"
              : "homeCards.saved",
        )}
        onSave={saveNow}
      />
    </>
  );
}
