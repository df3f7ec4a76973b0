import type { CSSProperties } from "react";
import type { CardForDay } from "../../../shared/api/home-cards.ts";
import { printedRating, ratings } from "../../../shared/home/home-card.ts";
import { useFormats, useSay } from "../../text/text.tsx";
import { WriteLine } from "../write-line.tsx";

/** Room for the lessons of a card on half a sheet, in millimetres, and the most that one needs. */
const roomMm = 76;
const mostRowMm = 15;

/** Hands the height of a lesson's row to the style sheet, as `--row`. */
function rowHeight(lessons: number): CSSProperties {
  const own: Record<string, string> = { "--row": `${Math.min(mostRowMm, roomMm / lessons)}mm` };
  return own;
}

/** A card for one day on half a sheet: lessons down, goals across, to be circled between two lessons. */
export function HomeCardSheet(props: { name: string; card: CardForDay; day: string }) {
  const say = useSay();
  const formats = useFormats();
  const { name, day } = props;
  const { goals, periods, scale, homework, selfRecord } = props.card.version.card;
  const isYesNo = scale.kind === "yes-no";
  const best = isYesNo ? "yesNo" : scale.goodEnd;
  const figures = ratings.map((rating) => printedRating(rating, "five"));
  return (
    <article className="home-paper-card">
      <header className="home-paper-card-head">
        <h2>{say("homePaper.card", { name })}</h2>
        <p>{formats.fullDay(day)}</p>
      </header>
      <p className="home-paper-card-how">
        {say("homePaper.circle", { scale: say(`homePaper.scale.${best}`) })}
      </p>
      <table
        className="home-paper-card-grid"
        style={rowHeight(periods.length)}
        aria-label={say("homePaper.card", { name })}
      >
        <thead>
          <tr>
            <th scope="col">{say("homePaper.lesson")}</th>
            {goals.map((goal) => (
              <th key={goal} scope="col">
                {goal}
              </th>
            ))}
            <th scope="col" className="home-paper-initials">
              {say("homePaper.initials")}
            </th>
          </tr>
        </thead>
        <tbody>
          {periods.map((period, row) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a lesson is its place on the card
            <tr key={row}>
              <th scope="row">{period}</th>
              {goals.map((goal) => (
                <td key={goal} className="home-paper-figures">
                  {(isYesNo ? [say("homePaper.yes"), say("homePaper.no")] : figures).map((each) => (
                    <span key={each}>{each}</span>
                  ))}
                </td>
              ))}
              <td />
            </tr>
          ))}
        </tbody>
      </table>
      <div className="home-paper-card-words">
        <div className="home-paper-room">{say("homePaper.wentWell")}</div>
        <div className="home-paper-room">{say("homePaper.tomorrow")}</div>
        {homework ? <WriteLine label={say("homePaper.homework")} /> : null}
        {selfRecord ? <p className="home-paper-own">{say("homePaper.ownRecord")}</p> : null}
        <WriteLine label={say("homePaper.homePoints")} />
        <WriteLine label={say("homePaper.family")} />
      </div>
      <p className="home-paper-note">{say("homePaper.note")}</p>
    </article>
  );
}
