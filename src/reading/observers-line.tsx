import type { StudentReading } from "../../shared/reading/student-reading.ts";
import { useVoice } from "../words/use-voice.ts";

/** How well two observers of one student agree; nothing where no cue was seen by two. */
export function ObserversLine({ observers }: Pick<StudentReading, "observers">) {
  const { say, formats } = useVoice();
  if (observers?.percent.kind !== "computed") return null;
  const { matching, compared, value, interval } = observers.percent;
  return (
    <p>
      {say("match.observers", {
        matching,
        compared,
        share: formats.percent(value),
        low: formats.percent(interval.lower),
        high: formats.percent(interval.upper),
      })}
    </p>
  );
}
