import { Link, useParams } from "react-router";
import type { StudentReading } from "../../shared/reading/student-reading.ts";
import type { GroupCounts } from "../../shared/record/group-counts.ts";
import { Choices } from "../parts/field.tsx";
import { useProgram } from "../reading/use-program.ts";
import { useGroupCounts, useReading } from "../reading/use-reading.ts";
import { useSay } from "../text/text.tsx";
import { PrintGap } from "./print-gap.tsx";
import { PrintPage } from "./print-page.tsx";
import { ReportFindings } from "./report-findings.tsx";
import { ReportNumbers } from "./report-numbers.tsx";
import { Sheet } from "./sheet.tsx";
import { useChoice } from "./use-option.ts";
import "./tables.css";
import "./report.css";

const spans = ["term", "month", "all"] as const;
export type ReportSpan = (typeof spans)[number];
const matchSection = ["print", "leaveOut"] as const;

/** What both sheets of a report are made from. */
export interface ReportProps {
  readonly counts: GroupCounts;
  readonly reading: StudentReading;
  readonly name: string;
}

/** Two sheets about one student for a meeting: plain words first, then the numbers and what they cannot say. */
export function ReportPage() {
  const { groupId = "", studentId = "" } = useParams();
  const counts = useGroupCounts(groupId);
  const reading = useReading(counts.data, { kind: "student", studentId });
  const student = counts.data?.students.find(({ id }) => id === studentId);
  const answer = reading.data;
  if (counts.data === undefined || student === undefined || answer?.kind !== "student") {
    const isMissing = counts.data !== undefined && student === undefined;
    return <PrintGap error={counts.error ?? reading.error} isMissing={isMissing} />;
  }
  return <Report counts={counts.data} reading={answer.reading} name={student.name} />;
}

function Report(props: ReportProps) {
  const { counts, reading, name } = props;
  const say = useSay();
  const goal = useProgram(counts.group.id)?.goal ?? null;
  const [span, setSpan] = useChoice("span", spans, "term");
  const [match, setMatch] = useChoice("match", matchSection, "print");
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
          <Choices
            label={say("print.match.section")}
            inRow
            value={match}
            choices={matchSection.map((value) => ({ value, label: say(`print.match.${value}`) }))}
            onChange={setMatch}
          />
        </>
      }
    >
      <Sheet number={1} count={2} kind="text">
        <ReportFindings {...props} span={span} goal={goal} />
      </Sheet>
      <Sheet number={2} count={2} kind="text">
        <ReportNumbers {...props} hasMatch={match === "print"} />
      </Sheet>
    </PrintPage>
  );
}
