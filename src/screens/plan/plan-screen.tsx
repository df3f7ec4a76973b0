import { type ReactNode, useMemo, useState } from "react";
import { Link, useParams } from "react-router";
import type { Plan } from "../../../shared/api/plans.ts";
import type { PlanSettings } from "../../../shared/plan/plan.ts";
import { checkPlan } from "../../../shared/schedule/check-plan.ts";
import { useGroups, usePlans, useTell } from "../../api/queries.ts";
import { TextField } from "../../parts/field.tsx";
import { Page, Section } from "../../parts/page.tsx";
import { PaperLinks } from "../../parts/paper-links.tsx";
import { useSay } from "../../text/text.tsx";
import { usePlanSummary } from "../../words/plan-summary.ts";
import { useGuess } from "./compute/use-computed.ts";
import { CheckFields } from "./fields/check-fields.tsx";
import { CueFields } from "./fields/cue-fields.tsx";
import { EarningFields } from "./fields/earning-fields.tsx";
import { FinerFields } from "./fields/finer-fields.tsx";
import { SoundFields } from "./fields/sound-fields.tsx";
import { SubjectField } from "./fields/subject-field.tsx";
import { useSettled } from "./fields/use-settled.ts";
import { FloorNote } from "./floor-note.tsx";
import { LeaveGuard } from "./leave-guard.tsx";
import { GuessFigure } from "./outlook/guess-figure.tsx";
import { PrecisionNote } from "./outlook/precision-note.tsx";
import { ThinningNote } from "./outlook/thinning-note.tsx";
import { TrustNote } from "./outlook/trust-note.tsx";
import { TrySeed } from "./outlook/try-seed.tsx";
import { PlanFoot } from "./plan-foot.tsx";
import { useSaveKey } from "./use-save-key.ts";
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

/** While somebody types, notes and problems wait until the numbers stand still so long. */
const stillMs = 400;

function PlanForm({ plan, groupName }: { plan: Plan; groupName: string }) {
  const say = useSay();
  const summary = usePlanSummary();
  const [name, setName] = useState(plan.name);
  const [settings, setSettings] = useState<PlanSettings>(plan.settings);
  const save = useTell((api, input: { id: string; name: string; settings: PlanSettings }) =>
    api.plans.update(input),
  );
  const change = (part: Partial<PlanSettings>) => setSettings((now) => ({ ...now, ...part }));
  const settled = useSettled(settings, stillMs);
  const problems = useMemo(() => checkPlan(settled), [settled]);
  const runnable = problems.length === 0 ? settled : null;
  // While a plan cannot be run, its margin is laid aside, not thrown away: what was chosen there stays.
  const inMargin = useLast(runnable);
  const guess = useGuess(inMargin);
  const [undone, setUndone] = useState(0);
  const [tried, setTried] = useState("example");

  const isSame = name.trim() === plan.name && sameSettings(settings, plan.settings);
  const canSave =
    !isSame && name.trim() !== "" && !save.isPending && checkPlan(settings).length === 0;
  const keep = () => save.mutateAsync({ id: plan.id, name: name.trim(), settings });
  const saveNow = () => {
    // A failure is shown from `save.error`.
    if (canSave) keep().catch(() => undefined);
  };
  useSaveKey(saveNow);

  return (
    <Page
      title={plan.name}
      back={<Link to={`/groups/${plan.groupId}`}>{groupName}</Link>}
      lead={runnable === null ? say("plan.seeFoot") : summary(runnable)}
      actions={<PaperLinks plan={plan} />}
    >
      <div className="plan-form">
        <div className="plan-row">
          <div className="plan-fields">
            <CueFields key={undone} settings={settings} onChange={change} />
            <CheckFields settings={settings} onChange={change} />
            <EarningFields
              groupId={plan.groupId}
              settings={settings}
              runnable={runnable}
              onChange={change}
            />
            <SoundFields settings={settings} onChange={change} />
          </div>
          <Margin label={say("plan.asideCues")} isLater={runnable === null}>
            {guess === null || inMargin === null ? null : (
              <>
                <GuessFigure guess={guess} />
                <TrustNote plan={inMargin} />
                <PrecisionNote plan={inMargin} groupId={plan.groupId} />
              </>
            )}
          </Margin>
        </div>
        <div className="plan-row">
          <Section title={say("plan.finer")}>
            <TextField
              label={say("plan.name")}
              value={name}
              onChange={setName}
              maxLength={60}
              problem={name.trim() === "" ? say("refused.name-empty") : undefined}
            />
            <SubjectField
              groupId={plan.groupId}
              subject={settings.subject}
              onChange={(subject) => change({ subject })}
            />
            <FinerFields
              settings={settings}
              onChange={change}
              floorNote={
                guess === null || runnable === null ? null : (
                  <FloorNote settings={runnable} guess={guess} />
                )
              }
            />
          </Section>
          <Margin label={say("plan.asideTry")} isLater={runnable === null}>
            {inMargin === null ? null : (
              <>
                <TrySeed
                  plan={plan}
                  settings={inMargin}
                  isSaved={isSame}
                  typed={tried}
                  onType={setTried}
                />
                <ThinningNote
                  plan={inMargin}
                  planId={plan.id}
                  groupId={plan.groupId}
                  isSaved={isSame}
                  onTry={setTried}
                />
              </>
            )}
          </Margin>
        </div>
      </div>
      <PlanFoot
        settings={settled}
        problems={problems}
        isSame={isSame}
        canSave={canSave}
        error={save.error}
        onUse={setSettings}
        onSave={saveNow}
        onUndo={() => {
          setName(plan.name);
          setSettings(plan.settings);
          setUndone((times) => times + 1);
        }}
      />
      <LeaveGuard hasChanges={!isSame} canSave={canSave} save={keep} />
    </Page>
  );
}

/** What follows from the settings beside it, on a slip in the margin. */
function Margin(props: { label: string; isLater: boolean; children: ReactNode }) {
  const say = useSay();
  return (
    <aside className="plan-margin" aria-label={props.label}>
      {props.isLater ? <p className="plan-caution">{say("plan.asideLater")}</p> : null}
      <div className="plan-margin-notes" hidden={props.isLater}>
        {props.children}
      </div>
    </aside>
  );
}

/** The value, or the last one there was. */
function useLast<Value>(value: Value | null): Value | null {
  const [last, setLast] = useState(value);
  if (value !== null && value !== last) setLast(value);
  return value ?? last;
}

function sameSettings(one: PlanSettings, other: PlanSettings): boolean {
  const rest = new Map<string, unknown>(Object.entries(other));
  return Object.entries(one).every(([field, value]) => {
    const kept = rest.get(field);
    // Texts are kept without spaces around them.
    return typeof value === "string" && typeof kept === "string"
      ? value.trim() === kept.trim()
      : Object.is(value, kept) || JSON.stringify(value) === JSON.stringify(kept);
  });
}
