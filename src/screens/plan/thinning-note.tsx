import { useMemo, useState } from "react";
import { Link } from "react-router";
import type { PlanSettings } from "../../../shared/plan/plan.ts";
import { roomForCues } from "../../../shared/schedule/cue-count.ts";
import { evenFadingSteps, fadingList } from "../../../shared/schedule/fading.ts";
import { Choices } from "../../parts/field.tsx";
import { useFormats, useSay } from "../../text/text.tsx";
import { wordSeconds } from "../today/plan-summary.ts";
import { wordPlanProblem } from "./word-problem.ts";

const usualEnds = [180, 300, 600, 900, 1200] as const;
const stepCounts = ["3", "4", "5"] as const;

/** Means to thin down to: the usual ones at least half as long again as now, or else twice what it is. */
function endsFor(meanSeconds: number): number[] {
  const longer = usualEnds.filter((end) => end >= 1.5 * meanSeconds);
  return longer.length > 0 ? longer : [2 * meanSeconds];
}

/** A look ahead: the means this plan could step through. Where the program stands is kept elsewhere. */
export function ThinningNote({ plan, groupId }: { plan: PlanSettings; groupId: string }) {
  const say = useSay();
  const formats = useFormats();
  const ends = endsFor(plan.meanSeconds);
  const [wanted, setWanted] = useState(600);
  const [steps, setSteps] = useState<(typeof stepCounts)[number]>("4");
  const end = ends.find((offered) => offered === wanted) ?? ends.at(-1) ?? wanted;
  const list = useMemo(() => {
    const means = evenFadingSteps({
      firstMeanSeconds: plan.meanSeconds,
      lastMeanSeconds: end,
      steps: Number(steps),
      sessionsPerStep: 1,
    });
    return fadingList(plan, "preview", means);
  }, [plan, end, steps]);
  return (
    <section className="plan-thinning" aria-labelledby="thinning-title">
      <h3 id="thinning-title">{say("thinning.title")}</h3>
      <p>
        {say("thinning.help")} <Link to={`/progress/${groupId}`}>{say("thinning.toProgress")}</Link>
      </p>
      <Choices
        label={say("thinning.end")}
        inRow
        value={String(end)}
        choices={ends.map((offered) => ({
          value: String(offered),
          label: wordSeconds(say, offered),
        }))}
        onChange={(value) => setWanted(Number(value))}
      />
      <Choices
        label={say("thinning.steps")}
        inRow
        value={steps}
        choices={stepCounts.map((value) => ({ value, label: value }))}
        onChange={setSteps}
      />
      <ol className="plan-steps">
        {list.map(({ number, plan: step, problems: [problem] }) => (
          <li key={number}>
            {problem === undefined
              ? say("thinning.step", {
                  mean: formats.clock(step.meanSeconds),
                  cues: Math.round(roomForCues(step) / step.meanSeconds),
                })
              : say("thinning.stepRefused", {
                  mean: formats.clock(step.meanSeconds),
                  why: wordPlanProblem(say, problem),
                })}
          </li>
        ))}
      </ol>
    </section>
  );
}
