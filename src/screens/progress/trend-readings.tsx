import { useMemo } from "react";
import type { PhaseSpan } from "../../../shared/analysis/phases/phase-series.ts";
import type { Source } from "../../../shared/analysis/types.ts";
import type { GraphPoint } from "./graph-points.ts";
import type { PresentTrend } from "./present-trend.ts";
import { recentSessions } from "./recent.ts";
import type { Span } from "./span.ts";
import { spanTrend } from "./span-trend.ts";
import { useVoice } from "./use-voice.ts";
import { type Voice, wordPhase, wordTrend } from "./words.ts";

/** Whether the rate changes now: in the present phase, and in its newest sessions where it is long. */
export function PresentReading({ present }: { present: PresentTrend }) {
  const voice = useVoice();
  return (
    <div className="progress-reading">
      <p className="progress-facts">{wordStretch(voice, present)}</p>
      <p className="progress-lead">{wordTrend(voice, present.trend)}</p>
      {present.recent === null ? null : (
        <p>
          <span className="progress-facts">
            {voice.say("trend.recent", { sessions: recentSessions })}
          </span>{" "}
          {wordTrend(voice, present.recent)}
        </p>
      )}
    </div>
  );
}

/** Which sessions a sentence about the present reads, such as "Program, since 3 November 2026". */
export function wordStretch(
  voice: Voice,
  { phase, source }: Pick<PresentTrend, "phase" | "source">,
): string {
  const { say, formats } = voice;
  return phase === null
    ? say("trend.noPhase", { by: source })
    : say("trend.phase", {
        phase: wordPhase(voice, phase),
        day: formats.fullDay(phase.startsOn),
        by: source,
      });
}

interface SpanReadingProps {
  readonly points: readonly GraphPoint[];
  readonly phases: readonly PhaseSpan[];
  readonly span: Span;
}

/** What the chosen days say: their rate, and the trend of the newest phase within them. */
export function SpanReading({ points, phases, span }: SpanReadingProps) {
  const voice = useVoice();
  const { say, formats } = voice;
  const { first, last } = span;
  const found = useMemo(
    () => spanTrend(points, phases, { first, last }),
    [points, phases, first, last],
  );
  const days = { from: formats.fullDay(first), to: formats.fullDay(last) };
  if (found === null) return <p role="status">{say("trend.shownNone", days)}</p>;
  return (
    <p role="status">
      {say("trend.shown", {
        ...days,
        by: found.source satisfies Source,
        sessions: found.sessions,
        rate: formats.percent(found.rate),
      })}{" "}
      {found.phase === null || found.within.first === first
        ? ""
        : say("trend.shownPhase", {
            phase: wordPhase(voice, found.phase),
            day: formats.fullDay(found.within.first),
          })}{" "}
      {wordTrend(voice, found.trend)}
    </p>
  );
}
