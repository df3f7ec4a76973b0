import { useMemo } from "react";
import { phasesFor } from "../../../shared/reading/phase-spans.ts";
import { programFor } from "../../../shared/roster/program.ts";
import type { useSpan } from "../../charts/span-fields.tsx";
import { Section } from "../../parts/page.tsx";
import { PresentReading } from "../../reading/trend-readings.tsx";
import { useProgram } from "../../reading/use-program.ts";
import { useVoice } from "../../words/use-voice.ts";
import { weekRates } from "../../words/week-rates.ts";
import {
  wordInterval,
  wordNotEnough,
  wordSessionInterval,
  wordWeekChange,
} from "../../words/words.ts";
import type { SectionProps } from "./section-props.ts";
import { SessionChart } from "./session-chart.tsx";

interface GoingProps extends SectionProps {
  readonly span: ReturnType<typeof useSpan>;
}

/** How is it going: the trend since the program began with its chart, week against week, the latest session. */
export function GoingSection({ counts, reading, name, span }: GoingProps) {
  const voice = useVoice();
  const { say } = voice;
  const program = useProgram(counts.group.id);
  const student = counts.students.find(({ id }) => id === reading.studentId);
  const goal = program === undefined ? null : programFor(program, student).goal;
  const phases = useMemo(
    () => phasesFor(counts.phases, reading.studentId),
    [counts.phases, reading.studentId],
  );
  const { self, rates, latest } = reading;
  return (
    <Section title={say("progress.going")}>
      {latest === null ? (
        <p>{say("progress.noSessions", { name })}</p>
      ) : (
        <div className="progress-headline">
          <PresentReading present={reading.said} />
          <SessionChart name={name} reading={reading} phases={phases} span={span} goal={goal} />
          <p>
            {weekRates(voice, name, reading)}{" "}
            {wordWeekChange(voice, reading.said.week, counts.today)}
          </p>
          <Latest latest={latest} />
          {self.overall.kind === "enough" ? (
            <p className="progress-facts">
              {say("progress.overall", {
                rate: voice.formats.percent(self.overall.rate),
                sessions: self.overall.sessions,
              })}{" "}
              {rates.overall.kind === "enough" ? wordInterval(voice, rates.overall.interval) : ""}
            </p>
          ) : (
            <p className="progress-facts">
              {reading.latest?.source === "observer"
                ? say("progress.observedOnly", { name })
                : wordNotEnough(voice, self.overall)}
            </p>
          )}
        </div>
      )}
    </Section>
  );
}

function Latest({ latest }: { latest: NonNullable<SectionProps["reading"]["latest"]> }) {
  const voice = useVoice();
  const { say, formats } = voice;
  const { session, source } = latest;
  if (session.rate.kind === "not-enough") return null;
  return (
    <p>
      {say("progress.latest", {
        day: formats.day(session.day),
        by: source,
        rate: formats.percent(session.rate.rate),
        on: session.counts.on,
        marks: session.rate.marks,
        cues: session.rate.marks + session.counts.missing,
      })}{" "}
      {wordSessionInterval(voice, session.rate)}
    </p>
  );
}
