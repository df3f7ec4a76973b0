import { weekRates } from "../screens/progress/going-section.tsx";
import { Missing } from "../screens/progress/honesty-section.tsx";
import { phasesFor } from "../screens/progress/phase-spans.ts";
import { SessionFigure } from "../screens/progress/session-figure.tsx";
import { spanOf } from "../screens/progress/span.ts";
import { useVoice } from "../screens/progress/use-voice.ts";
import {
  wordAgreement,
  wordInterval,
  wordNotEnough,
  wordTrend,
  wordWeekChange,
} from "../screens/progress/words.ts";
import { ComparedPhases } from "./compared-phases.tsx";
import type { ReportProps, ReportSpan } from "./report-page.tsx";

interface FindingsProps extends ReportProps {
  span: ReportSpan;
  goal: number | null;
}

/** The first sheet: how it goes, whether it changes, whether it can be believed, and the graph. */
export function ReportFindings({ counts, reading, name, span, goal }: FindingsProps) {
  const voice = useVoice();
  const { say, formats } = voice;
  const { self, latest, points, observers } = reading;
  const days = points.map(({ day }) => day).sort();
  return (
    <div className="report">
      <header className="paper-head">
        <h2>{say("print.report.heading", { name })}</h2>
        <p>
          {say("print.report.about", { group: counts.group.name, day: formats.day(counts.today) })}
        </p>
      </header>
      {latest === null ? (
        <p>{say("progress.noSessions", { name })}</p>
      ) : (
        <>
          <h3>{say("progress.going")}</h3>
          <p className="report-lead">
            {weekRates(voice, name, reading)} {wordWeekChange(voice, self.weekChange, counts.today)}
          </p>
          <p>
            {self.overall.kind === "enough"
              ? `${say("progress.overall", {
                  rate: formats.percent(self.overall.rate),
                  sessions: self.overall.sessions,
                })} ${wordInterval(voice, self.overall.interval)}`
              : wordNotEnough(voice, self.overall)}
          </p>
          <h3>{say("progress.changing")}</h3>
          <p>{wordTrend(voice, self.trend)}</p>
          <SessionFigure
            title={say("graph.title", { name })}
            summary={say("print.report.graph", {
              from: formats.shortDay(spanOf(span, days).first),
              to: formats.shortDay(spanOf(span, days).last),
              goal: goal === null ? "" : formats.percent(goal),
              hasGoal: goal === null ? "no" : "yes",
            })}
            points={points}
            lines={reading.lines}
            phases={phasesFor(counts.phases, reading.studentId)}
            span={spanOf(span, days)}
            overlays={{ level: true, trend: false, interval: false }}
            goal={goal}
          />
          <h3>{say("progress.program")}</h3>
          <ComparedPhases reading={reading} />
          <h3>{say("progress.honest")}</h3>
          <p>
            {wordAgreement(voice, reading.agreement)}{" "}
            {reading.agreement.percent.kind === "computed"
              ? say(`progress.honest.direction.${reading.agreement.mcNemar.direction}`, { name })
              : ""}
          </p>
          {observers?.percent.kind === "computed" ? (
            <p>
              {say("progress.honest.observers", {
                matching: observers.percent.matching,
                compared: observers.percent.compared,
                share: formats.percent(observers.percent.value),
                low: formats.percent(observers.percent.interval.lower),
                high: formats.percent(observers.percent.interval.upper),
              })}
            </p>
          ) : null}
          <Missing reading={reading} />
        </>
      )}
    </div>
  );
}
