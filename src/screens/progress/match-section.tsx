import type { ChangeSensitivity } from "../../../shared/analysis/sensitivity.ts";
import { Section } from "../../parts/page.tsx";
import { AgreementFigures, AgreementReading } from "../../reading/agreement-reading.tsx";
import { FreeLooks } from "../../reading/free-looks.tsx";
import { useVoice } from "../../words/use-voice.ts";
import type { SectionProps } from "./student-progress-screen.tsx";

/** Do record and checks match: agreement with its direction and what to do, then what missing marks could hide. */
export function MatchSection({ counts, reading, name }: SectionProps) {
  const { say, formats } = useVoice();
  const { agreement, observers } = reading;
  return (
    <Section title={say("match.title")}>
      <AgreementReading name={name} agreement={agreement} recent={reading.recentAgreement} />
      <FreeLooks
        looks={counts.freeLooks.filter(({ studentId }) => studentId === reading.studentId)}
      />
      <Missing reading={reading} />
      {observers?.percent.kind === "computed" ? (
        <p>
          {say("match.observers", {
            matching: observers.percent.matching,
            compared: observers.percent.compared,
            share: formats.percent(observers.percent.value),
            low: formats.percent(observers.percent.interval.lower),
            high: formats.percent(observers.percent.interval.upper),
          })}
        </p>
      ) : null}
      <AgreementFigures agreement={agreement} weeks={reading.agreementByWeek} />
    </Section>
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
