import { useRef } from "react";
import type { PlanSettings } from "../../../shared/plan/plan.ts";
import type { PlanProblem } from "../../../shared/schedule/check-plan.ts";
import { Button } from "../../parts/button.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";
import { PlanProblems } from "./plan-problems.tsx";
import { useClearOfFoot } from "./use-clear-of-foot.ts";

interface PlanFootProps {
  settings: PlanSettings;
  problems: readonly PlanProblem[];
  isSame: boolean;
  canSave: boolean;
  error: unknown;
  /** Takes the keyboard to the setting that is to be corrected. */
  onShow: () => void;
  onUse: (settings: PlanSettings) => void;
  onSave: () => void;
  onUndo: () => void;
}

/** Stays in sight at the foot of the page: whether the plan can be run, and whether it is kept. */
export function PlanFoot(props: PlanFootProps) {
  const say = useSay();
  const { isSame, canSave } = props;
  const foot = useRef<HTMLDivElement>(null);
  useClearOfFoot(foot);
  // The pressed button goes away with what it settled; the keyboard's place must not go with it.
  const stayHere = () => foot.current?.focus();
  return (
    <div className="plan-foot" ref={foot} tabIndex={-1}>
      <Problem error={props.error} />
      <PlanProblems
        settings={props.settings}
        problems={props.problems}
        onShow={props.onShow}
        onUse={(nearest) => {
          props.onUse(nearest);
          stayHere();
        }}
      />
      <div className="plan-foot-row">
        <p role="status">{say(isSame ? "plan.isSaved" : "plan.isChanged")}</p>
        {isSame ? null : (
          <Button
            look="quiet"
            onPress={() => {
              props.onUndo();
              stayHere();
            }}
          >
            {say("plan.undo")}
          </Button>
        )}
        <Button look="main" isDisabled={!canSave} onPress={props.onSave}>
          {say(isSame ? "plan.saved" : "act.save")}
        </Button>
      </div>
    </div>
  );
}
