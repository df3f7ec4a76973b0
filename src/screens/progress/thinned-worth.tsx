import { useMemo } from "react";
import type { EarningRules } from "../../../shared/plan/earning.ts";
import type { PlanSettings } from "../../../shared/plan/plan.ts";
import { thinnedWorth } from "../../../shared/points/thinned-worth.ts";
import type { Program } from "../../../shared/roster/program.ts";
import { fadedPlan } from "../../../shared/schedule/fading.ts";
import { usePlanChoice } from "../../api/queries.ts";
import {
  type PriceOutlook,
  rulesNow,
  usePoints,
  usePrices,
} from "../../class/points/use-points.ts";
import { Choices } from "../../parts/field.tsx";
import { useVoice } from "../../words/use-voice.ts";

const worths = ["raised", "kept"] as const;
export type Worth = (typeof worths)[number];

interface ThinnedWorthProps {
  readonly program: Program;
  readonly toPlace: number;
  readonly value: Worth;
  readonly onChange: (worth: Worth) => void;
}

/**
 * Fewer cues bring fewer points, and nobody should be fined for succeeding: what a mark is worth once a step
 * is taken, with the income before and after. Nothing where the plan in use earns nothing or gets no fewer
 * cues.
 */
export function ThinnedWorth({ program, toPlace, value, onChange }: ThinnedWorthProps) {
  const { plan } = usePlanChoice(program.groupId, null);
  const points = usePoints(program.groupId);
  const mean = program.stepMeansSeconds[toPlace];
  const checkedShare = points?.earns === true ? points.checkedShare : null;
  const settings = plan?.settings;
  const plans = useMemo(
    () =>
      settings === undefined || mean === undefined || checkedShare === null
        ? null
        : plansFor(settings, mean, checkedShare),
    [settings, mean, checkedShare],
  );
  return plans === null ? null : (
    <Proposal groupId={program.groupId} plans={plans} value={value} onChange={onChange} />
  );
}

interface Plans {
  readonly before: PlanSettings;
  readonly raised: PlanSettings;
  readonly kept: PlanSettings;
  readonly rules: { readonly before: EarningRules; readonly raised: EarningRules };
}

/** The plan as it pays now, and at the step with either worth; null where the worth would not change. */
function plansFor(settings: PlanSettings, mean: number, checkedShare: number): Plans | null {
  const { earning } = settings;
  const before = rulesNow(settings, checkedShare);
  if (before === null || mean <= settings.meanSeconds) return null;
  const kept = fadedPlan(settings, mean);
  const raised = { ...kept, earning: thinnedWorth(earning, settings, kept) };
  const rules = rulesNow(raised, checkedShare);
  if (rules === null || JSON.stringify(rules) === JSON.stringify(before)) return null;
  return { before: settings, kept, raised, rules: { before, raised: rules } };
}

function Proposal(props: {
  groupId: string;
  plans: Plans;
  value: Worth;
  onChange: (worth: Worth) => void;
}) {
  const { say, formats } = useVoice();
  const { groupId, plans, value, onChange } = props;
  const points = usePoints(groupId);
  const incomes = {
    before: meanOf(usePrices(groupId, plans.before, points)),
    raised: meanOf(usePrices(groupId, plans.raised, points)),
    kept: meanOf(usePrices(groupId, plans.kept, points)),
  };
  const { before, raised } = plans.rules;
  const changes = (["mark", "on", "match"] as const)
    .filter((rule) => before[rule] !== raised[rule])
    .map((rule) =>
      say("thinned.rule", {
        rule: say(`earning.rule.${rule}`),
        before: before[rule],
        after: raised[rule],
      }),
    );
  const income = (worth: Worth) =>
    incomes.before === null || incomes[worth] === null
      ? {}
      : {
          help: say("thinned.income", {
            before: formats.number(incomes.before, 0),
            after: formats.number(incomes[worth], 0),
          }),
        };
  return (
    <>
      <p>{say("thinned.why", { changes: formats.list(changes) })}</p>
      <Choices
        label={say("thinned.choose")}
        value={value}
        onChange={onChange}
        choices={worths.map((worth) => ({
          value: worth,
          label: say(`thinned.${worth}`),
          ...income(worth),
        }))}
      />
    </>
  );
}

/** Points that a student earns in a session, on average over the group. */
function meanOf(outlook: PriceOutlook | null): number | null {
  if (outlook === null) return null;
  const means = outlook.prices.students.map(({ session }) => session.mean);
  return means.reduce((sum, mean) => sum + mean, 0) / means.length;
}
