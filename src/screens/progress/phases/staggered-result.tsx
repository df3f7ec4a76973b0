import type { StaggeredReading } from "../../../../shared/reading/drawn/staggered-reading.ts";
import { DrawnDesign, standardChoices } from "../../../reading/drawn-result.tsx";
import { useSay } from "../../../text/text.tsx";

/** What starts that were drawn one after the other show. */
export function StaggeredResult({ staggered }: { staggered: StaggeredReading }) {
  const say = useSay();
  const { test, standing, students, redrawn } = staggered;
  return (
    <DrawnDesign
      test={test}
      redrawn={redrawn}
      why={(reason) => say(`designs.why.${reason}`)}
      found={(values) => say("designs.result", { ...values, students })}
      shown={say("designs.shown")}
      notShown={say("designs.notShown")}
      standing={say("designs.standing", {
        phases: standing.phases,
        starts: standing.starts,
        points: standing.fewestPoints,
        standard: standardChoices[standing.standard],
      })}
    />
  );
}
