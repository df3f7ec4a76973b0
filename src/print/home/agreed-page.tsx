import { Link } from "react-router";
import { type AgreedPage, linesAsked, standsFor } from "../../../shared/home/agreed.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { usePointsShown } from "../../class/points/use-points.ts";
import { useFormats, useSay } from "../../text/text.tsx";
import { PrintGap } from "../print-gap.tsx";
import { PrintPage } from "../print-page.tsx";
import { Sheet } from "../sheet.tsx";
import { WriteLine } from "../write-line.tsx";
import { PaperWords, usePaperLanguage } from "./paper-words.tsx";
import { Signatures } from "./signatures.tsx";
import { useStudentPaper } from "./use-student-paper.ts";
import "../tables.css";
import "./home-paper.css";

/** What was agreed about one student, on one sheet to sign; what nobody has said is left to be ticked. */
export function AgreedPaper() {
  const say = useSay();
  const languageOf = usePaperLanguage();
  const { known, error, isMissing } = useStudentPaper();
  if (known === undefined) return <PrintGap error={error} isMissing={isMissing} />;
  const { student, agreed } = known;
  const title = say("agreed.title", { name: student.name });
  const back = `/groups/${student.groupId}/students/${student.id}/agreed`;
  return (
    <PrintPage title={title} back={<Link to={back}>{title}</Link>} fileName={title}>
      <PaperWords language={languageOf(agreed)}>
        <Sheet number={1} count={1} kind="text">
          <AgreedSheet student={student} agreed={agreed} />
        </Sheet>
      </PaperWords>
    </PrintPage>
  );
}

function AgreedSheet({ student, agreed }: { student: Student; agreed: AgreedPage }) {
  const say = useSay();
  const formats = useFormats();
  const { name } = student;
  const asked = linesAsked(usePointsShown(student.groupId));
  return (
    <div className="home-paper">
      <div className="paper-head">
        <h2>{say("agreed.paper.title")}</h2>
        <p className="home-paper-for">{say("agreed.paper.for", { name })}</p>
        <p>{say("agreed.paper.lead")}</p>
      </div>
      <table className="home-paper-table" aria-label={say("agreed.paper.title")}>
        <thead>
          <tr>
            <td />
            <th scope="col">{say("agreed.paper.yes")}</th>
            <th scope="col">{say("agreed.paper.no")}</th>
            <th scope="col">{say("agreed.paper.day")}</th>
            <th scope="col">{say("agreed.paper.who")}</th>
          </tr>
        </thead>
        <tbody>
          {asked.map((line) => {
            const said = standsFor(agreed.said, line);
            return (
              <tr key={line}>
                <th scope="row">{say(`agreed.paper.line.${line}`, { name })}</th>
                <td className="home-paper-tick">
                  <Tick isOn={said?.answer === "yes"} label={say("agreed.paper.yes")} />
                </td>
                <td className="home-paper-tick">
                  <Tick isOn={said?.answer === "no"} label={say("agreed.paper.no")} />
                </td>
                <td>{said === null ? null : formats.fullDay(said.day)}</td>
                <td>{said?.who}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
      <p className="home-paper-review">
        {agreed.reviewOn === null ? (
          <WriteLine label={say("agreed.paper.review")} />
        ) : (
          <>
            {say("agreed.paper.review")} <strong>{formats.fullDay(agreed.reviewOn)}</strong>
          </>
        )}
      </p>
      <p>{say("agreed.paper.change")}</p>
      <Signatures />
    </div>
  );
}

/** A box on paper, crossed where an answer stands. */
function Tick({ isOn, label }: { isOn: boolean; label: string }) {
  return isOn ? (
    <svg className="home-paper-box" viewBox="0 0 10 10" role="img" aria-label={label}>
      <path d="M2 2 8 8M8 2 2 8" />
    </svg>
  ) : (
    <span className="home-paper-box" />
  );
}
