import type { PlanSettings } from "../../../shared/plan/plan.ts";
import type { PlanProblem } from "../../../shared/schedule/check-plan.ts";
import { Button } from "../../parts/button.tsx";
import { useFormats, useSay } from "../../text/text.tsx";
import { wordChanges } from "./fields/word-problem.ts";

interface PlanProblemsProps {
  settings: PlanSettings;
  problems: readonly PlanProblem[];
  onShow: () => void;
  onUse: (settings: PlanSettings) => void;
}

/** That this plan cannot be run, the way to what is wrong, and the nearest plan that can. */
export function PlanProblems({ settings, problems, onShow, onUse }: PlanProblemsProps) {
  const say = useSay();
  const formats = useFormats();
  const [first] = problems;
  if (first === undefined) return null;
  // To a text that is no number there is nothing near.
  const isUnread = problems.some(({ values }) => Number.isNaN(values.value));
  return (
    <div className="plan-problems">
      <p role="alert">
        <strong>{say("plan.cannotRun")}</strong>{" "}
        {isUnread
          ? say("plan.unread")
          : say("plan.nearest", {
              changes: formats.list(wordChanges(say, settings, first.nearest)),
            })}
      </p>
      <Button onPress={onShow}>{say("plan.showProblem")}</Button>
      {isUnread ? null : (
        <Button onPress={() => onUse(first.nearest)}>{say("plan.useNearest")}</Button>
      )}
    </div>
  );
}
