import { Section } from "../../parts/page.tsx";
import { AgreementReading } from "../../reading/agreement-reading.tsx";
import { FreeLooks } from "../../reading/free-looks.tsx";
import { MissingMarks } from "../../reading/missing-marks.tsx";
import { ObserversLine } from "../../reading/observers-line.tsx";
import { useVoice } from "../../words/use-voice.ts";
import { wordCorrected } from "../../words/words.ts";
import type { SectionProps } from "./section-props.ts";

/** Do record and checks match: agreement with its direction and what to do, then what missing marks could hide. */
export function MatchSection({ counts, reading, name }: SectionProps) {
  const voice = useVoice();
  const { say } = voice;
  const { agreement } = reading;
  const corrected = wordCorrected(voice, reading.corrected, name);
  return (
    <Section title={say("match.title")}>
      <AgreementReading name={name} agreement={agreement} recent={reading.recentAgreement} />
      {corrected === null ? null : <p>{corrected}</p>}
      <FreeLooks
        looks={counts.freeLooks.filter(({ studentId }) => studentId === reading.studentId)}
      />
      <MissingMarks reading={reading} />
      <ObserversLine observers={reading.observers} />
    </Section>
  );
}
