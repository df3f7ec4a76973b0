import type { StaggeredReading } from "../../../../shared/reading/drawn/staggered-reading.ts";
import { DrawnResult, standardChoices } from "../../../reading/drawn-result.tsx";
import { useVoice } from "../../../words/use-voice.ts";

/** What starts that were drawn one after the other show, and how such a design stands to the standard. */
export function StaggeredResult({ staggered }: { staggered: StaggeredReading }) {
  const { say, formats } = useVoice();
  const { test, standing, students, redrawn } = staggered;
  return (
    <>
      {test.kind === "not-computable" ? (
        <p>{say(`designs.why.${test.reason}`)}</p>
      ) : (
        <DrawnResult
          found={say("designs.result", {
            students,
            ways: test.ways,
            share: formats.percent(test.probability),
            points: Math.round(100 * test.difference),
            p: formats.number(test.probability, 3),
          })}
          probability={test.probability}
          redrawn={redrawn}
          shown={say("designs.shown")}
          notShown={say("designs.notShown")}
        />
      )}
      <p>
        {say("designs.standing", {
          phases: standing.phases,
          starts: standing.starts,
          points: standing.fewestPoints,
          standard: standardChoices[standing.standard],
        })}
      </p>
    </>
  );
}
