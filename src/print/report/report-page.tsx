import { Link, useParams } from "react-router";
import type { Term } from "../../../shared/calendar/timetable.ts";
import { programFor } from "../../../shared/roster/program.ts";
import { useTerms } from "../../api/queries.ts";
import { Choices, Switch } from "../../parts/field.tsx";
import { useProgram } from "../../reading/use-program.ts";
import { useReading, useStudentCounts } from "../../reading/use-reading.ts";
import { useSay } from "../../text/text.tsx";
import { PrintGap } from "../print-gap.tsx";
import { PrintPage } from "../print-page.tsx";
import { Sheet } from "../sheet.tsx";
import { useChoice, useOption } from "../use-option.ts";
import { ReportFindings } from "./report-findings.tsx";
import { ReportNumbers } from "./report-numbers.tsx";
import { type ReportPart, type ReportProps, reportParts, spans } from "./report-parts.ts";
import "../tables.css";
import "./report.css";

/** Two sheets about one student for a meeting: plain words first, then the numbers and what they cannot say. */
export function ReportPage() {
  const { groupId = "", studentId = "" } = useParams();
  const counts = useStudentCounts(groupId, studentId);
  const reading = useReading(counts.data, { kind: "student", studentId });
  const terms = useTerms();
  const student = counts.data?.students.find(({ id }) => id === studentId);
  const answer = reading.data;
  if (
    counts.data === undefined ||
    terms.data === undefined ||
    student === undefined ||
    answer?.kind !== "student"
  ) {
    const isMissing = counts.data !== undefined && student === undefined;
    return <PrintGap error={counts.error ?? reading.error ?? terms.error} isMissing={isMissing} />;
  }
  return (
    <Report counts={counts.data} reading={answer.reading} name={student.name} terms={terms.data} />
  );
}

function Report({ terms, ...props }: ReportProps & { readonly terms: readonly Term[] }) {
  const { counts, reading, name } = props;
  const say = useSay();
  const program = useProgram(counts.group.id);
  const student = counts.students.find(({ id }) => id === reading.studentId);
  const goal = program === undefined ? null : programFor(program, student).goal;
  const [span, setSpan] = useChoice("span", spans, "term");
  const parts = useParts();
  const title = say("print.report.title", { name });
  return (
    <PrintPage
      title={title}
      back={<Link to={`/progress/${counts.group.id}/${reading.studentId}`}>{name}</Link>}
      fileName={`${title} ${counts.today}`}
      lead={say("print.report.lead")}
      options={
        <>
          <Choices
            label={say("print.report.span")}
            inRow
            value={span}
            choices={spans.map((value) => ({ value, label: say(`span.${value}`) }))}
            onChange={setSpan}
          />
          <fieldset className="print-students">
            <legend>{say("print.report.parts")}</legend>
            {reportParts.map((part) => (
              <Switch
                key={part}
                label={say(`print.report.part.${part}`)}
                value={parts.has(part)}
                onChange={(isOn) => parts.turn(part, isOn)}
              />
            ))}
          </fieldset>
        </>
      }
    >
      <Sheet number={1} count={2} kind="text">
        <ReportFindings {...props} has={parts.has} span={span} terms={terms} goal={goal} />
      </Sheet>
      <Sheet number={2} count={2} kind="text">
        <ReportNumbers {...props} has={parts.has} />
      </Sheet>
    </PrintPage>
  );
}

/** Which parts are printed; those left out are named in the address. */
function useParts() {
  const [text, set] = useOption("without", "");
  const without = reportParts.filter((part) => text.split(",").includes(part));
  return {
    has: (part: ReportPart) => !without.includes(part),
    turn: (part: ReportPart, isOn: boolean) =>
      set(reportParts.filter((each) => (each === part ? !isOn : without.includes(each))).join(",")),
  };
}
