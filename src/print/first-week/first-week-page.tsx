import { useIntl } from "react-intl";
import { Link } from "react-router";
import enWeek from "../../text/help/en/first-week.json";
import esWeek from "../../text/help/es/first-week.json";
import { useSay } from "../../text/text.tsx";
import { PrintPage } from "../print-page.tsx";
import { Sheet } from "../sheet.tsx";
import "../tables.css";
import "./first-week.css";

const weeks = { en: enWeek, es: esWeek };

/** Two sheets for a teacher's wall: the first week day by day, and what to say to the class. */
export function FirstWeekPage() {
  const say = useSay();
  const { locale } = useIntl();
  const week = locale === "es" ? weeks.es : weeks.en;
  return (
    <PrintPage
      title={week.title}
      back={<Link to="/">{say("nav.today")}</Link>}
      fileName={week.title}
      lead={week.lead}
    >
      <Sheet number={1} count={2} kind="text">
        <div className="first-week">
          <h2>{week.title}</h2>
          <p>{week.lead}</p>
          {week.days.map(({ day, steps }) => (
            <section key={day}>
              <h3>{day}</h3>
              <ul>
                {steps.map((step) => (
                  <li key={step}>
                    <span className="paper-box" aria-hidden="true" />
                    <span>{step}</span>
                  </li>
                ))}
              </ul>
            </section>
          ))}
          <p className="paper-caution">{week.worry}</p>
        </div>
      </Sheet>
      <Sheet number={2} count={2} kind="text">
        <div className="first-week">
          <h2>{week.wordsTitle}</h2>
          <p>{week.wordsLead}</p>
          <dl className="first-words">
            {week.words.map(({ kind, text }) => (
              <div key={text} className={kind === "say" ? "first-words-say" : undefined}>
                <dt>{kind === "say" ? week.sayLabel : week.doLabel}</dt>
                <dd>{text}</dd>
              </div>
            ))}
          </dl>
        </div>
      </Sheet>
    </PrintPage>
  );
}
