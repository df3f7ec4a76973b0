import { useState } from "react";
import { Switch } from "../../parts/field.tsx";
import { Section } from "../../parts/page.tsx";
import { phasesFor } from "./phase-spans.ts";
import { type Overlays, SessionFigure } from "./session-figure.tsx";
import { SpanFields, useSpan } from "./span-fields.tsx";
import type { SectionProps } from "./student-progress-screen.tsx";
import { useProgram } from "./use-program.ts";
import { useVoice } from "./use-voice.ts";
import { WeeksFigure } from "./weeks-figure.tsx";
import { type Voice, wordLevels, wordTrend, wordWeekChange } from "./words.ts";

/** Is it changing: the single-case graph and the school weeks, over a span that can be chosen. */
export function ChangingSection({ counts, reading, name }: SectionProps) {
  const voice = useVoice();
  const { say, formats } = voice;
  const goal = useProgram(counts.group.id)?.goal ?? null;
  const span = useSpan(reading.points.map(({ day }) => day).sort(), counts.daysOff);
  const [overlays, setOverlays] = useState<Overlays>({
    level: true,
    trend: false,
    interval: false,
  });
  if (reading.points.length === 0) return null;
  return (
    <Section title={say("progress.changing")}>
      <p className="progress-lead">{wordTrend(voice, reading.self.trend)}</p>
      <SpanFields {...span} />
      <SessionFigure
        title={say("graph.title", { name })}
        summary={say("graph.summary", {
          sessions: reading.points.length,
          goal: goal === null ? "–" : formats.percent(goal),
          levels: wordLevels(voice, reading.phases),
        })}
        points={reading.points}
        lines={reading.lines}
        phases={phasesFor(counts.phases, reading.studentId)}
        span={span.span}
        overlays={overlays}
        goal={goal}
        controls={<OverlaySwitches overlays={overlays} onChange={setOverlays} />}
      />
      {reading.self.weeks.length === 0 ? null : (
        <WeeksFigure
          weeks={reading.self.weeks}
          span={span.span}
          summary={wordWeekChange(voice, reading.self.weekChange, counts.today)}
        />
      )}
      <Evidence voice={voice} />
    </Section>
  );
}

export function OverlaySwitches(props: {
  overlays: Overlays;
  onChange: (overlays: Overlays) => void;
}) {
  const { say } = useVoice();
  const { overlays, onChange } = props;
  return (
    <div className="progress-overlays">
      {(["level", "trend", "interval"] as const).map((name) => (
        <Switch
          key={name}
          label={say(`graph.overlay.${name}`)}
          value={overlays[name]}
          onChange={(value) => onChange({ ...overlays, [name]: value })}
        />
      ))}
    </div>
  );
}

/** The rule behind "clearly", "probably" and "cannot tell yet", one click away. */
function Evidence({ voice }: { voice: Voice }) {
  return (
    <details className="progress-more">
      <summary>{voice.say("progress.evidence")}</summary>
      <p>{voice.say("progress.evidence.rule")}</p>
      <p>{voice.say("progress.evidence.methods")}</p>
    </details>
  );
}
