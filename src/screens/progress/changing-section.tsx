import { useMemo } from "react";
import { phasesFor } from "../../../shared/reading/phase-spans.ts";
import type { useSpan } from "../../charts/span-fields.tsx";
import { WeeksFigure } from "../../charts/weeks-figure.tsx";
import { Section } from "../../parts/page.tsx";
import { SpanReading } from "../../reading/trend-readings.tsx";
import { useVoice } from "../../words/use-voice.ts";
import type { SectionProps } from "./section-props.ts";

interface ChangingProps extends SectionProps {
  readonly span: ReturnType<typeof useSpan>;
}

/** Is it changing: what the days shown say, and the school weeks. */
export function ChangingSection({ counts, reading, span }: ChangingProps) {
  const { say } = useVoice();
  const phases = useMemo(
    () => phasesFor(counts.phases, reading.studentId),
    [counts.phases, reading.studentId],
  );
  if (reading.points.length === 0) return null;
  return (
    <Section title={say("progress.changing")}>
      <SpanReading
        points={reading.points}
        phases={phases}
        span={span.span}
        present={reading.said}
      />
      {reading.self.weeks.length === 0 ? null : (
        <WeeksFigure weeks={reading.weeks} span={span.span} />
      )}
    </Section>
  );
}
