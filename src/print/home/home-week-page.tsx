import { Link, useParams } from "react-router";
import type { CardsOfSpan } from "../../../shared/api/home-cards.ts";
import { dayNumber, dayText, weekdayOf } from "../../../shared/calendar/calendar.ts";
import { homeWeek } from "../../../shared/home/home-week.ts";
import { useAsk, useGroups, useStudents, useTimetable } from "../../api/queries.ts";
import { DayField } from "../../parts/moment-field.tsx";
import { useAddress } from "../../parts/use-address.ts";
import { useFormats, useSay } from "../../text/text.tsx";
import { PrintGap } from "../print-gap.tsx";
import { PrintPage } from "../print-page.tsx";
import { Sheet } from "../sheet.tsx";
import { WriteLine } from "../write-line.tsx";
import { PaperWords, usePaperLanguage } from "./paper-words.tsx";
import "../tables.css";
import "./home-paper.css";

const lastOfWeek = 6;

/** The Monday of the week of a day, `YYYY-MM-DD`. */
const mondayOf = (day: string): string => dayText(dayNumber(day) - weekdayOf(dayNumber(day)) + 1);

/** A page for each family: the week of the home cards in plain words. */
export function HomeWeekPaper() {
  const say = useSay();
  const formats = useFormats();
  const { groupId = "" } = useParams();
  const [params, change] = useAddress();
  const groups = useGroups();
  const students = useStudents(groupId);
  const languageOf = usePaperLanguage();
  const today = useTimetable().data?.today;
  const asked = params.get("from") ?? today;
  const from = asked === undefined ? null : mondayOf(asked);
  const to = from === null ? null : dayText(dayNumber(from) + lastOfWeek);
  const weeks = useAsk("home", ["cards-of-span", groupId, from], (api) =>
    from === null || to === null ? Promise.resolve([]) : api.homeCards.span({ groupId, from, to }),
  );
  const group = groups.data?.find(({ id }) => id === groupId);
  if (group === undefined || students.data === undefined || weeks.data === undefined) {
    const isMissing = groups.data !== undefined && students.data !== undefined;
    return <PrintGap error={groups.error ?? weeks.error} isMissing={isMissing} />;
  }
  if (from === null || to === null) return <PrintGap error={null} isMissing={false} />;
  const only = params.get("student");
  // A page about cards that did not come back would be about nothing but that.
  const shown = weeks.data.filter(
    ({ studentId, cards }) => cards.length > 0 && (only === null || studentId === only),
  );
  const names = new Map(students.data.map(({ id, name }) => [id, name]));
  const title = say("homeWeek.title", { group: group.name });
  return (
    <PrintPage
      title={title}
      back={<Link to={`/groups/${group.id}/home-cards`}>{say("homeCards.link")}</Link>}
      fileName={`${title} ${from}`}
      lead={say("homeWeek.lead", { from: formats.day(from), to: formats.day(to) })}
      options={
        <DayField
          label={say("homeWeek.from")}
          value={from}
          onChange={(next) => change({ from: next })}
        />
      }
      notes={shown.length === 0 ? <p>{say("homeWeek.none")}</p> : undefined}
    >
      {shown.map((week, at) => {
        const place = { number: at + 1, count: shown.length };
        const about = { name: names.get(week.studentId) ?? "", week, from, to };
        return (
          <PaperWords key={week.studentId} language={languageOf(week)}>
            <WeekSheets place={place} {...about} />
          </PaperWords>
        );
      })}
    </PrintPage>
  );
}

interface WeekProps {
  name: string;
  week: CardsOfSpan;
  from: string;
  to: string;
}

/** So many letters written by hand fit on one sheet beside all else, A4 or Letter, in either language. */
const lettersOnSheet = 700;

/** The week of one family on one sheet; on two where much was written. */
function WeekSheets({ place, ...about }: WeekProps & { place: { number: number; count: number } }) {
  const letters = about.week.cards.reduce(
    (total, { typed }) => total + typed.wentWell.length + typed.tomorrow.length,
    0,
  );
  const parts = letters > lettersOnSheet ? (["words", "days"] as const) : (["all"] as const);
  return parts.map((part) => (
    <Sheet key={part} {...place} kind="text">
      <Week {...about} part={part} />
    </Sheet>
  ));
}

function Week(props: WeekProps & { part: "all" | "words" | "days" }) {
  const say = useSay();
  const formats = useFormats();
  const { name, from, to, part } = props;
  const { cards, selfRecord } = props.week;
  const {
    days,
    goals,
    points,
    cards: back,
  } = homeWeek(cards.map(({ version, typed }) => ({ card: version.card, typed })));
  const hasNext = days.some(({ tomorrow }) => tomorrow !== "");
  const well = days.filter(({ wentWell }) => wentWell !== "");
  return (
    <div className="home-paper">
      <div className="paper-head">
        <h2>{say("homePaper.weekTitle", { name })}</h2>
        <p>{say("homePaper.weekDays", { from: formats.fullDay(from), to: formats.fullDay(to) })}</p>
      </div>
      {part === "days" ? null : (
        <p className="home-paper-lead">{say("homePaper.weekLead", { cards: back, points })}</p>
      )}
      {part === "days" || well.length === 0 ? null : (
        <section>
          <h3>{say("homePaper.weekWell")}</h3>
          <ul className="home-paper-list">
            {well.map(({ day, wentWell }) => (
              <li key={day}>
                {formats.day(day)}: {wentWell}
              </li>
            ))}
          </ul>
        </section>
      )}
      {part === "days" || back === 0 ? null : (
        <section>
          <h3>{say("homePaper.weekGoals")}</h3>
          <ul className="home-paper-list">
            {goals.map(({ goal, well: times, rated }) => (
              <li key={goal}>{say("homePaper.weekGoal", { goal, well: times, rated })}</li>
            ))}
          </ul>
        </section>
      )}
      {part === "days" || selfRecord === null || selfRecord.on + selfRecord.off === 0 ? null : (
        <p>
          {say("homePaper.weekSelf", {
            name,
            on: selfRecord.on,
            marks: selfRecord.on + selfRecord.off,
          })}
        </p>
      )}
      {part === "words" || days.length === 0 ? null : (
        <section>
          <h3>{say("homePaper.weekTable")}</h3>
          <table
            className="home-paper-table home-paper-days"
            aria-label={say("homePaper.weekTable")}
          >
            <thead>
              <tr>
                <th scope="col">{say("homePaper.day")}</th>
                <th scope="col">{say("homePaper.points")}</th>
                <th scope="col">{say("homePaper.boxes")}</th>
                {hasNext ? <th scope="col">{say("homePaper.next")}</th> : null}
              </tr>
            </thead>
            <tbody>
              {days.map((day) => (
                <tr key={day.day}>
                  <th scope="row">{formats.day(day.day)}</th>
                  <td>{day.points ?? "–"}</td>
                  <td>{say("homePaper.boxesOf", { rated: day.rated, cells: day.cells })}</td>
                  {hasNext ? <td>{day.tomorrow}</td> : null}
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      )}
      <WriteLine label={say("homePaper.list")} />
      <p className="home-paper-note">{say("homePaper.note")}</p>
    </div>
  );
}
