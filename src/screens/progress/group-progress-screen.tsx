import { useMemo } from "react";
import { Link, useParams } from "react-router";
import { addOverStudents } from "../../../shared/analysis/summary.ts";
import type { GroupReading } from "../../../shared/reading/group-reading.ts";
import { phasesFor } from "../../../shared/reading/phase-spans.ts";
import { sessionsOf } from "../../../shared/reading/session-counts.ts";
import type { GroupCounts } from "../../../shared/record/group-counts.ts";
import { useAlternations } from "../../api/queries.ts";
import { useSpan } from "../../charts/span-fields.tsx";
import { More } from "../../parts/more.tsx";
import { Page, Section } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { AlternationResults } from "../../reading/alternation-result.tsx";
import { DamagedIn, useDamagedIn } from "../../reading/damaged-in.tsx";
import { PresentReading, SpanReading } from "../../reading/trend-readings.tsx";
import { useProgram } from "../../reading/use-program.ts";
import { groupJob, useGroupCounts, useReading } from "../../reading/use-reading.ts";
import { useVoice } from "../../words/use-voice.ts";
import { wordWeekChange } from "../../words/words.ts";
import { AdvicePanel } from "./advice-panel.tsx";
import { ByChance, WhoWasThere } from "./class-notes.tsx";
import { ClassTable } from "./class-table.tsx";
import { Glance } from "./glance-section.tsx";
import { GroupMatchSection } from "./group-match-section.tsx";
import { BetweenCase } from "./phases/between-case.tsx";
import { PhasesSection } from "./phases/phases-section.tsx";
import { StaggeredResult } from "./phases/staggered-result.tsx";
import { ProgramSection } from "./program-section.tsx";
import { SessionChart } from "./session-chart.tsx";
import { Working } from "./working.tsx";
import "./progress.css";

/** A class at a glance: the group as a whole, then each student, then the phases it went through. */
export function GroupProgressScreen() {
  const { say } = useVoice();
  const { groupId = "" } = useParams();
  const counts = useGroupCounts(groupId);
  const reading = useReading(counts.data, groupJob(counts.data));
  const answer = reading.data;
  const error = counts.error ?? reading.error;
  return (
    <Page
      title={counts.data?.group.name ?? say("nav.progress")}
      back={<Link to="/progress">{say("nav.progress")}</Link>}
      lead={say("progress.group.lead")}
      actions={<Link to={`/print/family/${groupId}`}>{say("familyPage.link")}</Link>}
    >
      {error === null ? null : <Problem error={error} />}
      {answer?.kind === "group" && counts.data !== undefined ? (
        <Shown counts={counts.data} reading={answer.reading} />
      ) : (
        <Working isDone={error !== null} />
      )}
    </Page>
  );
}

function Shown({ counts, reading }: { counts: GroupCounts; reading: GroupReading }) {
  const { say } = useVoice();
  const span = useSpan(
    counts.sessions.map(({ day }) => day),
    counts.daysOff,
  );
  const goal = useProgram(counts.group.id)?.goal ?? null;
  const takesTurns = useAlternations(counts.group.id).length > 0;
  // Without a phase or a draw nothing can be said of a program.
  const isRead = useDamagedIn(counts.group.name).length === 0;
  const isPlain = reading.phases.phases.length === 0 && reading.staggered === null && !takesTurns;
  return (
    <>
      <DamagedIn groupName={counts.group.name} />
      {counts.sessions.length === 0 ? (
        isRead && <p>{say("progress.group.noSessions")}</p>
      ) : (
        <>
          <Whole counts={counts} reading={reading} span={span} goal={goal} />
          <ClassTable counts={counts} reading={reading} />
          <More label={say("glance.title")}>
            <Glance counts={counts} reading={reading} span={span.span} goal={goal} />
          </More>
          {isPlain ? null : (
            <ProgramSection
              reading={reading}
              deeper={<BetweenCase betweenCase={reading.betweenCase} />}
            >
              {reading.staggered === null ? null : (
                <StaggeredResult staggered={reading.staggered} />
              )}
              <AlternationResults
                groupId={counts.group.id}
                sessions={() =>
                  addOverStudents(
                    counts.students.map(({ id }) => ({
                      studentId: id,
                      sessions: sessionsOf(counts, id),
                    })),
                  )
                }
              />
            </ProgramSection>
          )}
          <GroupMatchSection counts={counts} reading={reading} />
          <AdvicePanel counts={counts} reading={reading} name={counts.group.name} />
        </>
      )}
      <PhasesSection counts={counts} readiness={reading.readiness} />
      <p className="progress-caution">{say("progress.caution")}</p>
    </>
  );
}

/** The group as a whole: one sentence, its chart, then what belongs to them. */
function Whole(props: {
  counts: GroupCounts;
  reading: GroupReading;
  span: ReturnType<typeof useSpan>;
  goal: number | null;
}) {
  const { counts, reading, span, goal } = props;
  const voice = useVoice();
  const { say, formats } = voice;
  const { pooled, points } = reading;
  const phases = useMemo(() => phasesFor(counts.phases, null), [counts.phases]);
  return (
    <Section title={say("progress.group.whole")}>
      <PresentReading present={reading.said} />
      <SessionChart
        name={counts.group.name}
        reading={reading}
        phases={phases}
        span={span}
        goal={goal}
      />
      {points.length === 0 ? null : (
        <SpanReading
          points={points}
          phases={phases}
          span={span.span}
          present={reading.said}
          isClass
        />
      )}
      <p>{wordWeekChange(voice, reading.said.week, counts.today)}</p>
      <WhoWasThere said={reading.said} />
      <ByChance counts={counts} />
      <p className="progress-facts">
        {pooled.response.kind === "enough"
          ? say("progress.missing.some", {
              rate: formats.percent(pooled.response.rate),
              marks: pooled.response.marks,
              cues: pooled.response.cues,
            })
          : ""}
      </p>
    </Section>
  );
}
