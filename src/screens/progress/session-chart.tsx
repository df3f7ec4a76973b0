import { useState } from "react";
import type { PhaseSummary } from "../../../shared/analysis/phases/phase-summary.ts";
import type { Phase } from "../../../shared/phase/phase.ts";
import type { DrawnCriterion } from "../../../shared/reading/criterion-lines.ts";
import type { GraphPoint } from "../../../shared/reading/graph-points.ts";
import type { PhaseLines } from "../../../shared/reading/phase-lines.ts";
import { OverlaySwitches } from "../../charts/overlay-switches.tsx";
import { firstOverlays, SessionFigure } from "../../charts/session-figure.tsx";
import { SpanFields, type useSpan } from "../../charts/span-fields.tsx";
import { More } from "../../parts/more.tsx";
import { useVoice } from "../../words/use-voice.ts";
import { wordLevels } from "../../words/words.ts";

interface SessionChartProps {
  /** Whose: a student's or a group's name. */
  readonly name: string;
  readonly reading: {
    readonly points: readonly GraphPoint[];
    readonly lines: readonly PhaseLines[];
    readonly criterion: readonly DrawnCriterion[];
    readonly phases: PhaseSummary;
  };
  readonly phases: readonly Phase[];
  readonly span: ReturnType<typeof useSpan>;
  readonly goal: number | null;
}

/** The sessions as a chart, right under its sentence; what may be changed about it is one press away. */
export function SessionChart({ name, reading, phases, span, goal }: SessionChartProps) {
  const voice = useVoice();
  const { say, formats } = voice;
  const [overlays, setOverlays] = useState(firstOverlays);
  const { points, lines, criterion } = reading;
  if (points.length === 0) return null;
  return (
    <>
      <SessionFigure
        title={say("graph.title", { name })}
        summary={say("graph.summary", {
          sessions: points.length,
          // Not known yet, or none is set: then nothing is said of it.
          hasGoal: goal === null ? "other" : "yes",
          goal: goal === null ? "" : formats.percent(goal),
          levels: wordLevels(voice, reading.phases),
        })}
        points={points}
        lines={lines}
        criterion={criterion}
        phases={phases}
        span={span.span}
        overlays={overlays}
        goal={goal}
      />
      <More label={say("graph.change")}>
        <SpanFields {...span} />
        <OverlaySwitches overlays={overlays} onChange={setOverlays} criterion={criterion} />
      </More>
    </>
  );
}
