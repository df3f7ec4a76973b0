import { Link, useParams } from "react-router";
import { useAsk, useGroups, useStudents, useTimetable } from "../../api/queries.ts";
import { DayField } from "../../parts/moment-field.tsx";
import { useAddress } from "../../parts/use-address.ts";
import { useSay } from "../../text/text.tsx";
import { intoSheets } from "../paper.ts";
import { PrintGap } from "../print-gap.tsx";
import { PrintPage } from "../print-page.tsx";
import { Sheet } from "../sheet.tsx";
import { HomeCardSheet } from "./home-card-sheet.tsx";
import { PaperWords, usePaperLanguage } from "./paper-words.tsx";
import "../tables.css";
import "./home-paper.css";

/** Cards on a sheet, A4 or Letter, however many lessons they have. */
const onSheet = 2;

/** The home cards of one day, for all who have one or for one student, each in the language of its family. */
export function HomeCardsPaper() {
  const say = useSay();
  const { groupId = "" } = useParams();
  const [params, change] = useAddress();
  const groups = useGroups();
  const students = useStudents(groupId);
  const languageOf = usePaperLanguage();
  const today = useTimetable().data?.today;
  const day = params.get("day") ?? today;
  const cards = useAsk("home", ["cards-of-day", groupId, day ?? null], (api) =>
    day === undefined ? Promise.resolve([]) : api.homeCards.ofDay({ groupId, day }),
  );
  const group = groups.data?.find(({ id }) => id === groupId);
  if (group === undefined || students.data === undefined || cards.data === undefined) {
    const isMissing = groups.data !== undefined && students.data !== undefined;
    return <PrintGap error={groups.error ?? cards.error} isMissing={isMissing} />;
  }
  if (day === undefined) return <PrintGap error={null} isMissing={false} />;
  const only = params.get("student");
  const shown = cards.data.filter(({ studentId }) => only === null || studentId === only);
  const names = new Map(students.data.map(({ id, name }) => [id, name]));
  const title = say("homeCards.title", { group: group.name });
  const sheets = intoSheets(shown, onSheet);
  return (
    <PrintPage
      title={title}
      back={<Link to={`/groups/${group.id}/home-cards?day=${day}`}>{say("homeCards.link")}</Link>}
      fileName={`${title} ${day}`}
      options={
        <DayField
          label={say("homeCards.day")}
          value={day}
          onChange={(next) => change({ day: next })}
        />
      }
      notes={shown.length === 0 ? <p>{say("homeCards.noneToPrint")}</p> : undefined}
    >
      {shown.length === 0
        ? null
        : sheets.map((onOne, at) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a sheet is its place in the stack
            <Sheet key={at} number={at + 1} count={sheets.length} kind="cards">
              <div className="home-paper-cards">
                {onOne.map((card) => (
                  <PaperWords key={card.studentId} language={languageOf(card)}>
                    <HomeCardSheet name={names.get(card.studentId) ?? ""} card={card} day={day} />
                  </PaperWords>
                ))}
              </div>
            </Sheet>
          ))}
    </PrintPage>
  );
}
