import type { Term } from "../../../shared/calendar/timetable.ts";
import { phasesFor } from "../../../shared/reading/phase-spans.ts";
import { spanOf } from "../../../shared/reading/span.ts";
import { firstOverlays, SessionFigure } from "../../charts/session-figure.tsx";
import { RecentTrend, wordStretch } from "../../reading/trend-readings.tsx";
import { useVoice } from "../../words/use-voice.ts";
import { weekRates } from "../../words/week-rates.ts";
import { wordInterval, wordNotEnough, wordTrend, wordWeekChange } from "../../words/words.ts";
import { LinesLeft } from "../lines-left.tsx";
import { ComparedPhases } from "./compared-phases.tsx";
import type { ReportSpan, SheetProps } from "./report-parts.ts";

interface FindingsProps extends SheetProps {
  span: ReportSpan;
  /** The school's own, where they are set. */
  terms: readonly Term[];
  goal: number | null;
}

/** The first sheet: how it goes, whether it changes, the graph, and whether it is the program. */
export function ReportFindings({ counts, reading, name, has, span, terms, goal }: FindingsProps) {
  const voice = useVoice();
  const { say, formats } = voice;
  const { self, rates, latest, points } = reading;
  const days = points.map(({ day }) => day).sort();
  const shown = spanOf(span, days, counts.daysOff, terms);
  return (
    <div className="report report-findings">
      <header className="paper-head">
        <h2>{say("print.report.heading", { name })}</h2>
        <p>
          {say("print.report.about", {
            group: counts.group.name,
            day: formats.fullDay(counts.today),
          })}
        </p>
      </header>
      {latest === null ? (
        <p>{say("progress.noSessions", { name })}</p>
      ) : (
        <>
          <h3>{say("progress.going")}</h3>
          <p className="report-lead">
            {wordStretch(voice, reading.said)}: {wordTrend(voice, reading.said.trend)}
          </p>
          <RecentTrend recent={reading.said.recent} />
          <p>
            {self.overall.kind === "enough"
              ? `${say("progress.overall", {
                  rate: formats.percent(self.overall.rate),
                  sessions: self.overall.sessions,
                })} ${rates.overall.kind === "enough" ? wordInterval(voice, rates.overall.interval) : ""}`
              : wordNotEnough(voice, self.overall)}
          </p>
          <h3>{say("progress.changing")}</h3>
          {has("weekChange") ? (
            <p>
              {weekRates(voice, name, reading)}{" "}
              {wordWeekChange(voice, reading.said.week, counts.today)}
            </p>
          ) : null}
          <SessionFigure
            title={say("graph.title", { name })}
            summary={say("print.report.graph", {
              from: formats.fullDay(shown.first),
              to: formats.fullDay(shown.last),
              goal: goal === null ? "" : formats.percent(goal),
              hasGoal: goal === null ? "no" : "yes",
            })}
            points={points}
            lines={reading.lines}
            criterion={reading.criterion}
            phases={phasesFor(counts.phases, reading.studentId)}
            span={shown}
            overlays={firstOverlays}
            goal={goal}
          />
          {has("program") ? (
            <>
              <h3>{say("progress.program")}</h3>
              <ComparedPhases reading={reading} />
            </>
          ) : null}
        </>
      )}
      {has("notes") ? (
        <section className="report-lines">
          <h3>{say("print.report.voices", { name })}</h3>
          <LinesLeft />
        </section>
      ) : null}
    </div>
  );
}
