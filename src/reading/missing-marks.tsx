import type { ChangeSensitivity } from "../../shared/analysis/sensitivity.ts";
import type { StudentReading } from "../../shared/reading/student-reading.ts";
import { useVoice } from "../words/use-voice.ts";

/** Response rate, and whether missing marks could change what is said. They never count as off task. */
export function MissingMarks({ reading }: { reading: StudentReading }) {
  const { say, formats } = useVoice();
  const { response, sensitivity, counts } = reading.self;
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
      {say("progress.missing.trend", { changes: hangsOn(reading.saidSensitivity.trend) })}{" "}
      {say("progress.missing.week", { changes: hangsOn(reading.saidSensitivity.week) })}
    </p>
  );
}

function hangsOn({ asRecorded, changes }: ChangeSensitivity): "yes" | "no" | "none" {
  if (asRecorded.kind === "not-enough") return "none";
  return changes ? "yes" : "no";
}
