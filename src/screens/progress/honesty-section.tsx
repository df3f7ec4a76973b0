import type { AgreementSummary } from "../../../shared/agreement/agreement-summary.ts";
import type { ChangeSensitivity } from "../../../shared/analysis/sensitivity.ts";
import { Scroll } from "../../charts/scroll.tsx";
import { Section } from "../../parts/page.tsx";
import { agreementRows } from "./agreement-rows.ts";
import { recentSessions } from "./recent.ts";
import type { SectionProps } from "./student-progress-screen.tsx";
import { useVoice } from "./use-voice.ts";
import { wordAgreement } from "./words.ts";

/** Is the record honest: agreement with its direction and what to do, then what missing marks could hide. */
export function HonestySection({ reading, name }: SectionProps) {
  const voice = useVoice();
  const { say, formats } = voice;
  const { agreement, observers } = reading;
  return (
    <Section title={say("progress.honest")}>
      <p className="progress-lead">{wordAgreement(voice, agreement)}</p>
      <RecentAgreement reading={reading} />
      {agreement.percent.kind === "computed" ? (
        <>
          <p>{say(`progress.honest.direction.${agreement.mcNemar.direction}`, { name })}</p>
          <p>
            <strong>{say("progress.honest.next")}</strong>{" "}
            {say(`progress.honest.next.${agreement.next}`)}
          </p>
        </>
      ) : (
        <p>{say("progress.honest.next.check-more")}</p>
      )}
      <Missing reading={reading} />
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
      {agreement.percent.kind === "computed" ? (
        <details className="progress-more">
          <summary>{say("progress.statistics")}</summary>
          <AgreementStatistics agreement={agreement} />
          <Weeks reading={reading} />
        </details>
      ) : null}
    </Section>
  );
}

/** Agreement lately, by which flags and advice go, where it rests on other checks than the whole. */
function RecentAgreement({ reading }: Pick<SectionProps, "reading">) {
  const voice = useVoice();
  const { agreement, recentAgreement } = reading;
  if (recentAgreement.percent.kind === "not-computable") return null;
  if (agreement.percent.kind === "not-computable") return null;
  if (recentAgreement.percent.compared === agreement.percent.compared) return null;
  return (
    <p>
      <span className="progress-facts">
        {voice.say("trend.recentAgreement", { sessions: recentSessions })}
      </span>{" "}
      {wordAgreement(voice, recentAgreement)}
    </p>
  );
}

/** Response rate, and whether missing marks could change what is said. They never count as off task. */
export function Missing({ reading }: Pick<SectionProps, "reading">) {
  const { say, formats } = useVoice();
  const { response, sensitivity, counts } = reading.self;
  const { presentSensitivity } = reading;
  if (response.kind === "not-enough") return null;
  const share = {
    rate: formats.percent(response.rate),
    marks: response.marks,
    cues: response.cues,
  };
  if (counts.missing === 0) return <p>{say("progress.missing.none", share)}</p>;
  return (
    <p>
      {say("progress.missing.some", share)}{" "}
      {sensitivity.rate.kind === "enough"
        ? say("progress.missing.bounds", {
            low: formats.percent(sensitivity.rate.bounds.lower),
            high: formats.percent(sensitivity.rate.bounds.upper),
          })
        : ""}{" "}
      {say("progress.missing.trend", { changes: hangsOn(presentSensitivity) })}{" "}
      {say("progress.missing.week", { changes: hangsOn(sensitivity.weekChange) })}
    </p>
  );
}

function hangsOn({ asRecorded, changes }: ChangeSensitivity): "yes" | "no" | "none" {
  if (asRecorded.kind === "not-enough") return "none";
  return changes ? "yes" : "no";
}

function AgreementStatistics({ agreement }: { agreement: AgreementSummary }) {
  const voice = useVoice();
  const { say } = voice;
  return (
    <>
      <table className="progress-table">
        <caption>{say("stat.agreement")}</caption>
        <tbody>
          {agreementRows(voice, agreement).map(({ name, value }) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>{value}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {agreement.notes.map((note) => (
        <p key={note}>{say(`progress.honest.note.${note}`)}</p>
      ))}
    </>
  );
}

function Weeks({ reading }: Pick<SectionProps, "reading">) {
  const { say, formats } = useVoice();
  return (
    <Scroll label={say("stat.agreementByWeek")}>
      <table className="progress-table">
        <caption>{say("stat.agreementByWeek")}</caption>
        <thead>
          <tr>
            <th scope="col">{say("weeks.week")}</th>
            <th scope="col">{say("stat.matching")}</th>
            <th scope="col">{say("stat.compared")}</th>
          </tr>
        </thead>
        <tbody>
          {reading.agreementByWeek.map(({ monday, summary: { percent } }) => (
            <tr key={monday}>
              <td>{formats.day(monday)}</td>
              <td>{percent.kind === "computed" ? formats.number(percent.matching) : "0"}</td>
              <td>{percent.kind === "computed" ? formats.number(percent.compared) : "0"}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  );
}
