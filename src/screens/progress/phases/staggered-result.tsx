import type { StaggeredReading } from "../../../../shared/reading/drawn/staggered-reading.ts";
import { useVoice } from "../../../words/use-voice.ts";

/** A probability that is hard to explain by chance. Common practice, no source. */
const hardByChance = 0.05;

/** As the catalogue names them; its choices take no hyphens. */
const standards = {
  meets: "meets",
  "with-reservations": "reservations",
  "does-not-meet": "other",
} as const;

/** What starts that were drawn one after the other show, and how such a design stands to the standard. */
export function StaggeredResult({ staggered }: { staggered: StaggeredReading }) {
  const { say, formats } = useVoice();
  const { test, standing, students, redrawn } = staggered;
  return (
    <>
      {test.kind === "not-computable" ? (
        <p>{say(`designs.why.${test.reason}`)}</p>
      ) : (
        <p>
          {say("designs.result", {
            students,
            ways: test.ways,
            share: formats.percent(test.probability),
            points: Math.round(100 * test.difference),
            p: formats.number(test.probability, 3),
          })}{" "}
          {redrawn
            ? say("designs.notExact")
            : say(test.probability <= hardByChance ? "designs.shown" : "designs.notShown")}
        </p>
      )}
      <p>
        {say("designs.standing", {
          phases: standing.phases,
          starts: standing.starts,
          points: standing.fewestPoints,
          standard: standards[standing.standard],
        })}
      </p>
    </>
  );
}
