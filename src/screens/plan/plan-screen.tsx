import { useState } from "react";
import { Link, useParams } from "react-router";
import type { Plan } from "../../../shared/api/plans.ts";
import { checkPlan } from "../../../shared/plan/check-plan.ts";
import type { PlanSettings } from "../../../shared/plan/plan.ts";
import { useGroups, usePlans, useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { TextField } from "../../parts/field.tsx";
import { Page, Section } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { PaperLinks } from "../../print/paper-links.tsx";
import { useSay } from "../../text/text.tsx";
import { usePlanSummary } from "../today/plan-summary.ts";
import { CueFields } from "./cue-fields.tsx";
import { FinerFields } from "./finer-fields.tsx";
import { GuessFigure } from "./guess-figure.tsx";
import { PlanProblems } from "./plan-problems.tsx";
import { SoundFields } from "./sound-fields.tsx";
import { TrySeed } from "./try-seed.tsx";
import "./plan.css";

/** One plan: what a session will be like. */
export function PlanScreen() {
  const say = useSay();
  const { groupId = "", planId = "" } = useParams();
  const plans = usePlans(groupId);
  const group = useGroups().data?.find(({ id }) => id === groupId);
  const plan = plans.data?.find(({ id }) => id === planId);
  if (plans.data === undefined) return <Page title={say("today.plan")}>{say("wait")}</Page>;
  if (plan === undefined) return <Page title={say("error.missing")}>{null}</Page>;
  return <PlanForm key={plan.id} plan={plan} groupName={group?.name ?? ""} />;
}

function PlanForm({ plan, groupName }: { plan: Plan; groupName: string }) {
  const say = useSay();
  const summary = usePlanSummary();
  const [name, setName] = useState(plan.name);
  const [settings, setSettings] = useState<PlanSettings>(plan.settings);
  const save = useTell((api, input: { id: string; name: string; settings: PlanSettings }) =>
    api.plans.update(input),
  );
  const change = (part: Partial<PlanSettings>) => setSettings((now) => ({ ...now, ...part }));
  const problems = checkPlan(settings);
  const isSame =
    name.trim() === plan.name && JSON.stringify(settings) === JSON.stringify(plan.settings);
  const canSave = !isSame && name.trim() !== "" && problems.length === 0 && !save.isPending;

  return (
    <Page
      title={plan.name}
      back={<Link to={`/groups/${plan.groupId}`}>{groupName}</Link>}
      lead={problems.length === 0 ? summary(settings) : undefined}
      actions={
        <Button
          look="main"
          isDisabled={!canSave}
          onPress={() => save.mutate({ id: plan.id, name: name.trim(), settings })}
        >
          {isSame ? say("plan.saved") : say("act.save")}
        </Button>
      }
    >
      <Problem error={save.error} />
      <PlanProblems problems={problems} onUse={setSettings} />
      <div className="plan-columns">
        <div className="plan-fields">
          <CueFields settings={settings} onChange={change} />
          <SoundFields settings={settings} onChange={change} />
          <Section title={say("plan.finer")}>
            <TextField
              label={say("plan.name")}
              value={name}
              onChange={setName}
              maxLength={60}
              problem={name.trim() === "" ? say("refused.name-empty") : undefined}
            />
            <FinerFields settings={settings} onChange={change} />
          </Section>
        </div>
        <aside className="plan-aside" aria-label={say("plan.aside")}>
          {problems.length > 0 ? null : (
            <>
              <PaperLinks plan={plan} />
              <GuessFigure settings={settings} />
              <TrySeed settings={settings} />
            </>
          )}
        </aside>
      </div>
    </Page>
  );
}
