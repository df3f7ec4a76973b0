import type {
  PhaseComparison,
  PhaseDescription,
} from "../../shared/analysis/phases/phase-summary.ts";
import type { StudentReading } from "../../shared/reading/student-reading.ts";
import { useVoice } from "../words/use-voice.ts";
import { wordPhase } from "../words/words.ts";

/** One phase beside the one before it, in a few sentences. */
export function Comparison(props: {
  comparison: PhaseComparison;
  phases: readonly PhaseDescription[];
}) {
  const voice = useVoice();
  const { say, formats } = voice;
  const { comparison, phases } = props;
  const from = phases[comparison.from];
  const to = phases[comparison.to];
  if (from === undefined || to === undefined) return null;
  if (from.level.kind === "not-computable" || to.level.kind === "not-computable") return null;
  const change = to.level.mean - from.level.mean;
  return (
    <p>
      {say("progress.compare", {
        from: wordPhase(voice, from),
        to: wordPhase(voice, to),
        before: formats.percent(from.level.mean),
        after: formats.percent(to.level.mean),
        direction: Math.round(100 * change) === 0 ? "level" : change > 0 ? "up" : "down",
        points: Math.round(Math.abs(100 * change)),
      })}{" "}
      {say(`progress.compare.${comparison.evidence ?? "none"}`)}{" "}
      {comparison.riseBefore > 0
        ? say("progress.compare.risingBefore", {
            from: wordPhase(voice, from),
            rise: Math.round(100 * comparison.riseBefore),
          })
        : ""}{" "}
      {comparison.sourcesDiffer
        ? say("progress.sourcesDiffer", {
            from: wordPhase(voice, from),
            to: wordPhase(voice, to),
            earlier: from.source,
          })
        : from.source === "observer"
          ? say("progress.bothObserved")
          : ""}
    </p>
  );
}

/** The exact test of a drawn start, where there was a draw. */
export function Randomization(props: { reading: Pick<StudentReading, "phases" | "timesDrawn"> }) {
  const { reading } = props;
  const { say, formats } = useVoice();
  const test = reading.phases.randomization;
  if (test === null) return null;
  if (test.kind === "not-computable") return <p>{say(`progress.why.${test.reason}`)}</p>;
  return (
    <p>
      {say("progress.randomization", {
        permitted: test.permitted,
        atLeast: Math.round(test.probability * test.permitted),
        p: formats.number(test.probability, 3),
      })}{" "}
      {reading.timesDrawn > 1
        ? say("progress.randomization.redrawn", { times: reading.timesDrawn })
        : ""}
    </p>
  );
}
