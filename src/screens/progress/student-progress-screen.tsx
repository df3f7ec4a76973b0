import { useMemo } from "react";
import { Link, useParams } from "react-router";
import { sessionsOf } from "../../../shared/reading/session-counts.ts";
import { useSpan } from "../../charts/span-fields.tsx";
import { Worry } from "../../class/home/worry.tsx";
import { Columns, Page } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { AlternationResults } from "../../reading/alternation-result.tsx";
import { useReading, useStudentCounts } from "../../reading/use-reading.ts";
import { useVoice } from "../../words/use-voice.ts";
import { AdvicePanel } from "./advice-panel.tsx";
import { ChangingSection } from "./changing-section.tsx";
import { GoingSection } from "./going-section.tsx";
import { MatchSection } from "./match-section.tsx";
import { NotesSection } from "./notes-section.tsx";
import { PatternsSection } from "./patterns-section.tsx";
import { ProgramSection } from "./program-section.tsx";
import type { SectionProps } from "./section-props.ts";
import { StatisticsSection } from "./statistics-section.tsx";
import { WorkSection } from "./work-section.tsx";
import { Working } from "./working.tsx";
import "./progress.css";

/** One student: how it goes, whether it changes, whether it is the program, whether it is true, what next. */
export function StudentProgressScreen() {
  const { say } = useVoice();
  const { groupId = "", studentId = "" } = useParams();
  const counts = useStudentCounts(groupId, studentId);
  const reading = useReading(counts.data, { kind: "student", studentId });
  const student = counts.data?.students.find(({ id }) => id === studentId);
  const error = counts.error ?? reading.error;
  if (counts.data !== undefined && student === undefined) {
    return <Page title={say("error.missing")}>{null}</Page>;
  }
  const answer = reading.data;
  return (
    <Page
      title={student?.name ?? say("nav.progress")}
      back={<Link to={`/progress/${groupId}`}>{counts.data?.group.name ?? ""}</Link>}
      lead={say("progress.student.lead")}
      actions={
        student === undefined ? undefined : (
          <>
            <Worry groupId={groupId} student={student} />
            <Link to={`/own/${groupId}/${studentId}`}>
              {say("own.link", { name: student.name })}
            </Link>
            <Link to={`/print/family/${groupId}?students=${studentId}`}>
              {say("familyPage.linkOne")}
            </Link>
            <Link to={`/print/report/${groupId}/${studentId}`}>{say("print.link.report")}</Link>
          </>
        )
      }
    >
      {error === null ? null : <Problem error={error} />}
      {answer?.kind === "student" && counts.data !== undefined ? (
        <Answers counts={counts.data} reading={answer.reading} name={student?.name ?? ""} />
      ) : (
        <Working isDone={error !== null} />
      )}
    </Page>
  );
}

function Answers(props: SectionProps) {
  const { say } = useVoice();
  const { counts, reading } = props;
  // One span for every figure of the page that goes by days.
  const days = useMemo(() => reading.points.map(({ day }) => day).sort(), [reading.points]);
  const span = useSpan(days, counts.daysOff);
  return (
    <>
      <GoingSection {...props} span={span} />
      <ChangingSection {...props} span={span} />
      <Columns
        left={
          <>
            <ProgramSection {...props} isPlain>
              <AlternationResults
                groupId={counts.group.id}
                sessions={() => sessionsOf(counts, reading.studentId)}
              />
            </ProgramSection>
            <MatchSection {...props} />
          </>
        }
        right={<AdvicePanel key={reading.studentId} {...props} />}
      />
      <WorkSection {...props} span={span.span} />
      <Columns left={<PatternsSection {...props} />} right={<NotesSection {...props} />} />
      <StatisticsSection reading={reading} />
      <p className="progress-caution">{say("progress.caution")}</p>
    </>
  );
}
