import { useState } from "react";
import type { Plan } from "../../../shared/api/plans.ts";
import type { PlanSettings } from "../../../shared/plan/plan.ts";
import { usePointsAllowed } from "../../class/points/use-points.ts";
import { useGuess } from "../../compute/use-computed.ts";
import { TextField } from "../../parts/field.tsx";
import { More } from "../../parts/more.tsx";
import { Section } from "../../parts/page.tsx";
import { useSay } from "../../text/text.tsx";
import { CheckFields } from "./fields/check-fields.tsx";
import { EarningFields } from "./fields/earning-fields.tsx";
import { FinerFields } from "./fields/finer-fields.tsx";
import { LawField } from "./fields/law-field.tsx";
import type { PlanFieldsProps } from "./fields/plan-fields.ts";
import { SoundFields } from "./fields/sound-fields.tsx";
import { SubjectField } from "./fields/subject-field.tsx";
import { FloorNote } from "./floor-note.tsx";
import { ThinningNote } from "./outlook/thinning-note.tsx";
import { TrySeed } from "./outlook/try-seed.tsx";

interface PlanMoreProps extends PlanFieldsProps {
  plan: Plan;
  name: string;
  onName: (name: string) => void;
  /** The settings once they stood still, if they can be run. */
  runnable: PlanSettings | null;
  /** The same, or as they were when they last could be. */
  lastRunnable: PlanSettings | null;
  isSaved: boolean;
  isOpen: boolean;
  onOpenChange: (isOpen: boolean) => void;
}

/** All of a plan but its three questions: right as it is for most classes. */
export function PlanMore(props: PlanMoreProps) {
  const { plan, name, onName, runnable, lastRunnable, isSaved, isOpen, onOpenChange } = props;
  const { settings, onChange, problemAt } = props;
  const say = useSay();
  const fields = { settings, onChange, problemAt };
  const guess = useGuess(isOpen ? lastRunnable : null);
  const [tried, setTried] = useState("example");
  return (
    <More
      label={say("plan.more", { points: usePointsAllowed() ? "yes" : "no" })}
      isOpenAtFirst={isOpen}
      onOpenChange={onOpenChange}
    >
      <div className="plan-columns">
        <div className="plan-fields">
          <SoundFields {...fields} />
          <CheckFields {...fields} />
          <EarningFields {...fields} groupId={plan.groupId} runnable={runnable} />
        </div>
        <div className="plan-fields">
          <Section title={say("plan.names")}>
            <TextField
              label={say("plan.name")}
              value={name}
              onChange={onName}
              maxLength={60}
              problem={name.trim() === "" ? say("refused.name-empty") : undefined}
            />
            <SubjectField
              groupId={plan.groupId}
              subject={settings.subject}
              onChange={(subject) => onChange({ subject })}
            />
          </Section>
          <Section title={say("plan.spread")}>
            <LawField {...fields} />
            <FinerFields
              {...fields}
              floorNote={
                guess === null || runnable === null ? null : (
                  <FloorNote settings={runnable} guess={guess} />
                )
              }
            />
          </Section>
        </div>
      </div>
      {runnable === null ? <p className="plan-caution">{say("plan.asideLater")}</p> : null}
      {lastRunnable === null || !isOpen ? null : (
        <div className="plan-columns" hidden={runnable === null}>
          <TrySeed
            plan={plan}
            settings={lastRunnable}
            isSaved={isSaved}
            typed={tried}
            onType={setTried}
          />
          <ThinningNote
            plan={lastRunnable}
            planId={plan.id}
            groupId={plan.groupId}
            isSaved={isSaved}
            onTry={setTried}
          />
        </div>
      )}
    </More>
  );
}
