import { useEffect, useMemo, useState } from "react";
import { Link, useParams } from "react-router";
import type { Plan } from "../../../shared/api/plans.ts";
import type { PlanSettings } from "../../../shared/plan/plan.ts";
import { checkPlan } from "../../../shared/schedule/check-plan.ts";
import { useGroups, usePlans, useStudents, useTell } from "../../api/queries.ts";
import { Page } from "../../parts/page.tsx";
import { PaperLinks } from "../../parts/paper-links.tsx";
import { useSay } from "../../text/text.tsx";
import { goToField } from "./fields/field-place.tsx";
import type { PlanField } from "./fields/problem-places.ts";
import { QuestionFields } from "./fields/question-fields.tsx";
import { useSettled } from "./fields/use-settled.ts";
import { LeaveGuard } from "./leave-guard.tsx";
import { PlanFoot } from "./plan-foot.tsx";
import { PlanHappens } from "./plan-happens.tsx";
import { PlanLinks } from "./plan-links.tsx";
import { PlanMore } from "./plan-more.tsx";
import { useProblems } from "./use-problems.ts";
import { useSaveKey } from "./use-save-key.ts";
import "./plan.css";

/** One plan: what a session will be like. */
export function PlanScreen() {
  const say = useSay();
  const { groupId = "", planId = "" } = useParams();
  const plans = usePlans(groupId);
  const groups = useGroups().data;
  const students = useStudents(groupId).data;
  const plan = plans.data?.find(({ id }) => id === planId);
  // What came later, a name or a note for many students, would move what is being pressed.
  if (plans.data === undefined || groups === undefined || students === undefined) {
    return <Page title={say("today.plan")}>{say("wait")}</Page>;
  }
  if (plan === undefined) return <Page title={say("error.missing")}>{null}</Page>;
  const groupName = groups.find(({ id }) => id === groupId)?.name ?? "";
  return <PlanForm key={plan.id} plan={plan} groupName={groupName} students={students.length} />;
}

/** While somebody types, notes and problems wait until the numbers stand still so long. */
const stillMs = 400;

interface PlanFormProps {
  plan: Plan;
  groupName: string;
  /** How many are in the group. */
  students: number;
}

function PlanForm({ plan, groupName, students }: PlanFormProps) {
  const [name, setName] = useState(plan.name);
  const [settings, setSettings] = useState<PlanSettings>(plan.settings);
  const [changed, setChanged] = useState<PlanField | null>(null);
  const save = useTell((api, input: { id: string; name: string; settings: PlanSettings }) =>
    api.plans.update(input),
  );
  const change = (part: Partial<PlanSettings>) => {
    setSettings((now) => ({ ...now, ...part }));
    const [field] = Object.keys(part);
    setChanged(Object.keys(settings).find((each): each is PlanField => each === field) ?? null);
  };
  const settled = useSettled(settings, stillMs);
  const problems = useMemo(() => checkPlan(settled), [settled]);
  const places = useProblems(problems, changed);
  const runnable = problems.length === 0 ? settled : null;
  // While a plan cannot be run, what follows from it is laid aside, not thrown away.
  const lastRunnable = useLast(runnable);
  const [undone, setUndone] = useState(0);
  const [isMoreOpen, openMore] = useState(() => window.location.search !== "");
  const [wanted, want] = useState<{ readonly field: PlanField } | null>(null);
  useShowField(wanted);

  const isSame = name.trim() === plan.name && sameSettings(settings, plan.settings);
  const canSave =
    !isSame && name.trim() !== "" && !save.isPending && checkPlan(settings).length === 0;
  const keep = () => save.mutateAsync({ id: plan.id, name: name.trim(), settings });
  const showProblem = () => {
    if (places.first === null) return;
    if (!askedFirst.includes(places.first)) openMore(true);
    want({ field: places.first });
  };
  const saveNow = () => {
    // A failure is shown from `save.error`.
    if (canSave) keep().catch(() => undefined);
    else showProblem();
  };
  useSaveKey(saveNow);
  const fields = { settings, onChange: change, problemAt: places.problemAt };

  return (
    <Page
      title={plan.name}
      back={<Link to={`/groups/${plan.groupId}`}>{groupName}</Link>}
      actions={<PaperLinks plan={plan} />}
    >
      <div className="plan-form">
        <div className="plan-asked">
          <QuestionFields key={undone} {...fields} groupId={plan.groupId} students={students} />
          <PlanHappens plan={lastRunnable} isLater={runnable === null} />
        </div>
        <PlanLinks plan={lastRunnable} isLater={runnable === null} groupId={plan.groupId} />
        <PlanMore
          {...fields}
          plan={plan}
          name={name}
          onName={setName}
          runnable={runnable}
          lastRunnable={lastRunnable}
          isSaved={isSame}
          isOpen={isMoreOpen}
          onOpenChange={openMore}
        />
      </div>
      <PlanFoot
        settings={settled}
        problems={problems}
        isSame={isSame}
        canSave={canSave}
        error={save.error}
        onShow={showProblem}
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

/** What stands above `More`. */
const askedFirst: readonly PlanField[] = ["meanSeconds", "lengthSeconds", "recording"];

/** Goes to a field once it is on the page. */
function useShowField(wanted: { readonly field: PlanField } | null): void {
  useEffect(() => {
    if (wanted !== null) goToField(wanted.field);
  }, [wanted]);
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
