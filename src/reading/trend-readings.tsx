import { useMemo } from "react";
import type { PhaseSpan } from "../../shared/analysis/phases/phase-series.ts";
import { recentSessions } from "../../shared/analysis/recent.ts";
import type { PresentReading as Present } from "../../shared/analysis/statements/record-reading.ts";
import type { GraphPoint } from "../../shared/reading/graph-points.ts";
import type { Span } from "../../shared/reading/span.ts";
import { type SpanTrend, spanTrend } from "../../shared/reading/span-trend.ts";
import type { Source } from "../../shared/record/session-count.ts";
import type { Result } from "../../shared/statistics/result.ts";
import { useVoice } from "../words/use-voice.ts";
import { type SaidTrend, type Voice, wordPhase, wordTrend } from "../words/words.ts";

/** Of one student or of a class. */
type Said = Present<SaidTrend>;

/** Whether the rate changes now: in the present phase, and in its newest sessions where it is long. */
export function PresentReading({
  present,
}: {
  present: Pick<Said, "phase" | "source" | "trend" | "recent">;
}) {
  const voice = useVoice();
  return (
    <div className="progress-reading">
      <p className="progress-facts">{wordStretch(voice, present)}</p>
      <p className="progress-lead">{wordTrend(voice, present.trend)}</p>
      <RecentTrend recent={present.recent} />
    </div>
  );
}

/** The trend of the newest sessions, where these are not all of the phase. */
export function RecentTrend({ recent }: Pick<Said, "recent">) {
  const voice = useVoice();
  if (recent === null) return null;
  return (
    <p>
      <span className="progress-facts">
        {voice.say("trend.recent", { sessions: recentSessions })}
      </span>{" "}
      {wordTrend(voice, recent)}
    </p>
  );
}

/** Which sessions a sentence about the present reads, such as "Program, since 3 November 2026". */
export function wordStretch(
  voice: Voice,
  { phase, source }: Pick<Said, "phase" | "source">,
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
  /** What has been said already; not said twice where the days shown hold the same sessions. */
  readonly present: Pick<Said, "phase" | "source" | "trend">;
  /** A class's marks added up say nothing of how its students move: rate only. */
  readonly isClass?: boolean;
}

/** What the chosen days say: their rate, and the trend of the newest phase within them. */
export function SpanReading({ points, phases, span, present, isClass }: SpanReadingProps) {
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
      {isClass || isSaidAlready(found, present) ? "" : wordWithin(voice, found, first)}
    </p>
  );
}

/** The same phase with the same number of sessions: the days shown hold all of it. */
const isSaidAlready = (
  { phase, source, trend }: SpanTrend,
  present: SpanReadingProps["present"],
): boolean =>
  phase?.startsOn === present.phase?.startsOn &&
  source === present.source &&
  sessionsIn(trend) === sessionsIn(present.trend);

const sessionsIn = (trend: Result<Pick<SaidTrend, "sessions">>): number =>
  trend.kind === "enough" ? trend.sessions : trend.have;

function wordWithin(voice: Voice, { phase, within, trend }: SpanTrend, first: string): string {
  const { say, formats } = voice;
  const words = wordTrend(voice, trend);
  if (phase === null || within.first === first) return words;
  const day = formats.fullDay(within.first);
  return `${say("trend.shownPhase", { phase: wordPhase(voice, phase), day })} ${words}`;
}
