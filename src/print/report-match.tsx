import { RecentAgreement } from "../reading/agreement-reading.tsx";
import { MissingMarks } from "../reading/missing-marks.tsx";
import { useVoice } from "../words/use-voice.ts";
import { wordAgreement } from "../words/words.ts";
import type { ReportProps } from "./report-page.tsx";

/** Whether the record can be believed: agreement with its direction, two observers, missing marks. */
export function ReportMatch({ reading, name }: ReportProps) {
  const voice = useVoice();
  const { say, formats } = voice;
  const { agreement, observers, latest } = reading;
  if (latest === null) return null;
  return (
    <section>
      <h3>{say("match.title")}</h3>
      <p>
        {wordAgreement(voice, agreement)}{" "}
        {agreement.percent.kind === "computed"
          ? say(`match.direction.${agreement.mcNemar.direction}`, { name })
          : ""}
      </p>
      <RecentAgreement agreement={agreement} recent={reading.recentAgreement} />
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
      <MissingMarks reading={reading} />
    </section>
  );
}
