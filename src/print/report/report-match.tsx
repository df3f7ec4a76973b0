import { MissingMarks } from "../../reading/missing-marks.tsx";
import { ObserversLine } from "../../reading/observers-line.tsx";
import { useVoice } from "../../words/use-voice.ts";
import { type Voice, wordCorrected } from "../../words/words.ts";
import type { ReportProps } from "./report-parts.ts";

/** How well record and checks match, for a family: without "you", and without a word on honesty. */
export function ReportMatch({ reading, name }: ReportProps) {
  const voice = useVoice();
  const { say } = voice;
  const { latest } = reading;
  if (latest === null) return null;
  const corrected = wordCorrected(voice, reading.corrected, name, "print.match.corrected");
  return (
    <section>
      <h3>{say("print.match.title")}</h3>
      <p>
        {wordMatch(voice, reading)} {corrected}
      </p>
      <ObserversLine observers={reading.observers} />
      <MissingMarks reading={reading} />
    </section>
  );
}

/** Of the recent sessions where they have checks, as on screen; of all otherwise. */
function wordMatch(
  { say, formats }: Voice,
  { agreement, recentAgreement }: ReportProps["reading"],
) {
  const told = recentAgreement.percent.kind === "computed" ? recentAgreement : agreement;
  const { percent } = told;
  if (percent.kind === "not-computable") return say("print.match.none");
  return say(`print.match.${told.reading.match}`, {
    matching: percent.matching,
    compared: percent.compared,
    share: formats.percent(percent.value),
    low: formats.percent(percent.interval.lower),
    high: formats.percent(percent.interval.upper),
  });
}
