import type {
  PhaseComparison,
  PhaseDescription,
} from "../../shared/analysis/phases/phase-summary.ts";
import type { ClassReading } from "../../shared/analysis/statements/class-reading.ts";
import type { RecordReading } from "../../shared/analysis/statements/record-reading.ts";
import type { StudentReading } from "../../shared/reading/student-reading.ts";
import { useVoice } from "../words/use-voice.ts";
import { signedPoints, type Voice, wordPhase } from "../words/words.ts";

/** One phase beside the one before it, in a few sentences. */
export function Comparison(props: {
  comparison: PhaseComparison;
  phases: readonly PhaseDescription[];
  /** What may be said of the two phases; of the same place among the comparisons. */
  said: SaidPhases | undefined;
}) {
  const voice = useVoice();
  const { say } = voice;
  const { comparison, phases } = props;
  const from = phases[comparison.from];
  const to = phases[comparison.to];
  if (from === undefined || to === undefined) return null;
  if (from.level.kind === "not-computable" || to.level.kind === "not-computable") return null;
  return (
    <p>
      {wordLevelsOf(voice, from, to, props.said)} {wordOutcome(voice, props.said)}{" "}
      {comparison.riseBefore > 0
        ? say("progress.compare.risingBefore", {
            from: wordPhase(voice, from),
            rise: Math.round(100 * comparison.riseBefore),
          })
        : ""}{" "}
      {from.kind === "baseline" && from.source === "self"
        ? say("designs.baselineUnderCues", { from: wordPhase(voice, from) })
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

const directionOf = (change: number) =>
  Math.round(100 * change) === 0 ? "level" : change > 0 ? "up" : "down";

/** Both levels of a student; of a class, how far its students moved, because others may have come since. */
function wordLevelsOf(
  voice: Voice,
  from: PhaseDescription,
  to: PhaseDescription,
  said: SaidPhases | undefined,
): string {
  const { say, formats } = voice;
  const names = { from: wordPhase(voice, from), to: wordPhase(voice, to) };
  if (said?.kind === "enough" && "students" in said) {
    return say("sure.classPhases", {
      ...names,
      students: said.students,
      direction: directionOf(said.points / 100),
      points: Math.round(Math.abs(said.points)),
    });
  }
  if (from.level.kind === "not-computable" || to.level.kind === "not-computable") return "";
  const change = to.level.mean - from.level.mean;
  return say("progress.compare", {
    ...names,
    before: formats.percent(from.level.mean),
    after: formats.percent(to.level.mean),
    direction: directionOf(change),
    points: Math.round(Math.abs(100 * change)),
  });
}

/** Of one student or of a class. */
type SaidPhases = (RecordReading | ClassReading)["phases"][number];

/** Whether the later phase did what was wanted of it, and what the data fit. */
function wordOutcome(voice: Voice, said: SaidPhases | undefined): string {
  const { say } = voice;
  if (said === undefined || said.kind === "not-enough") return say("progress.compare.none");
  const { outcome, wanted, evidence, direction, interval } = said;
  const fits = say("progress.compare.fits", {
    low: signedPoints(voice, interval.lower),
    high: signedPoints(voice, interval.upper),
  });
  return `${say(`progress.compare.outcome.${outcome}`, { wanted, evidence, direction })} ${fits}`;
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
