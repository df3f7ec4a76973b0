import type { PlanSettings } from "../../../shared/plan/plan.ts";
import type { PlanProblem } from "../../../shared/schedule/check-plan.ts";
import { Button } from "../../parts/button.tsx";
import { Notice } from "../../parts/notice.tsx";
import { useFormats, useSay } from "../../text/text.tsx";
import { wordChanges, wordPlanProblem } from "./fields/word-problem.ts";

interface PlanProblemsProps {
  settings: PlanSettings;
  problems: readonly PlanProblem[];
  onUse: (settings: PlanSettings) => void;
}

/** Why this plan cannot be run, and the nearest that can. */
export function PlanProblems({ settings, problems, onUse }: PlanProblemsProps) {
  const say = useSay();
  const formats = useFormats();
  // A field whose text is no number says so itself, and there is nothing yet to be near to.
  const isUnread = ({ values }: PlanProblem) => Number.isNaN(values.value);
  const [first] = problems;
  if (first === undefined || problems.some(isUnread)) return null;
  return (
    <Notice kind="caution" title={say("plan.cannotRun")}>
      <ul className="plan-problems">
        {problems.map((problem) => (
          <li key={`${problem.code} ${problem.values.field}`}>{wordPlanProblem(say, problem)}</li>
        ))}
      </ul>
      <div className="plan-nearest">
        <p>
          {say("plan.nearest", {
            changes: formats.list(wordChanges(say, settings, first.nearest)),
          })}
        </p>
        <Button onPress={() => onUse(first.nearest)}>{say("plan.useNearest")}</Button>
      </div>
    </Notice>
  );
}
