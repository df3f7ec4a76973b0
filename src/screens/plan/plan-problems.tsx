import type { PlanProblem } from "../../../shared/plan/check-plan.ts";
import type { PlanSettings } from "../../../shared/plan/plan.ts";
import { Button } from "../../parts/button.tsx";
import { Notice } from "../../parts/notice.tsx";
import { type Say, useSay } from "../../text/text.tsx";
import { usePlanSummary, wordSeconds } from "../today/plan-summary.ts";

/** Lengths are worded as a teacher says them; other numbers as they are. */
function worded(say: Say, problem: PlanProblem): Record<string, string | number> {
  return Object.fromEntries(
    Object.entries(problem.values).map(([name, value]) => [
      name,
      typeof value === "number" && /Seconds$|^leastLongest$/.test(name)
        ? wordSeconds(say, value)
        : value,
    ]),
  );
}

/** Why this plan cannot be run, and the nearest that can. */
export function PlanProblems(props: {
  problems: readonly PlanProblem[];
  onUse: (settings: PlanSettings) => void;
}) {
  const say = useSay();
  const summary = usePlanSummary();
  const [first] = props.problems;
  if (first === undefined) return null;
  return (
    <Notice kind="caution" title={say("plan.cannotRun")}>
      <ul className="plan-problems">
        {props.problems.map((problem) => (
          <li key={problem.code}>{say(`planProblem.${problem.code}`, worded(say, problem))}</li>
        ))}
      </ul>
      <p>{say("plan.nearest", { plan: summary(first.nearest) })}</p>
      <Button onPress={() => props.onUse(first.nearest)}>{say("plan.useNearest")}</Button>
    </Notice>
  );
}
