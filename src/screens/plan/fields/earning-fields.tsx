import { type Earning, type EarningRules, takesPoints } from "../../../../shared/plan/earning.ts";
import type { PlanSettings } from "../../../../shared/plan/plan.ts";
import {
  alwaysYesGain,
  leastTruthfulChecks,
  leastTruthfulMatch,
  truthPays,
  usualRules,
  usualTimes,
} from "../../../../shared/points/truth.ts";
import { expectedCues } from "../../../../shared/schedule/kept-counts.ts";
import { useStudents } from "../../../api/queries.ts";
import {
  usePoints,
  usePointsAllowed,
  usePrices,
  useSessionsADay,
} from "../../../class/points/use-points.ts";
import { Button } from "../../../parts/button.tsx";
import { Choices, NumberField, Switch } from "../../../parts/field.tsx";
import { Notice } from "../../../parts/notice.tsx";
import { Section } from "../../../parts/page.tsx";
import { useFormats, useSay } from "../../../text/text.tsx";
import { OwnGoals } from "./own-goals.tsx";
import type { PlanFieldsProps } from "./plan-fields.ts";
import "./earning-fields.css";

const kinds = ["none", "usual", "own"] as const;
/** The most that one rule pays. */
const most = 20;

interface EarningFieldsProps extends PlanFieldsProps {
  groupId: string;
  /** The settings once they stood still, if they can be run. */
  runnable: PlanSettings | null;
}

/** What a session earns: nothing, the usual rule, or the teacher's own. Absent where points are off. */
export function EarningFields({ groupId, settings, runnable, onChange }: EarningFieldsProps) {
  const say = useSay();
  const isAllowed = usePointsAllowed();
  const points = usePoints(groupId);
  if (!isAllowed || points === undefined) return null;
  const { earning } = settings;
  const share = points.checkedShare;
  const choose = (kind: (typeof kinds)[number]) =>
    onChange({ earning: earningOf(kind, earning, share) });
  return (
    <Section title={say("earning.title")}>
      <Choices
        label={say("earning.kind")}
        value={earning.kind}
        onChange={choose}
        choices={kinds.map((kind) => ({
          value: kind,
          label: say(`earning.${kind}`),
          help: say(`earning.${kind}.help`),
        }))}
      />
      {earning.kind === "usual" ? <UsualNote rules={earning.rules} share={share} /> : null}
      {earning.kind === "own" ? (
        <OwnRules
          rules={earning.rules}
          onChange={(rules) => onChange({ earning: { ...earning, rules } })}
        />
      ) : null}
      {earning.kind !== "none" && earning.rules.goal > 0 ? (
        <OwnGoals groupId={groupId} planShare={earning.rules.goalShare} />
      ) : null}
      {earning.kind === "own" ? (
        <TruthNote
          groupId={groupId}
          rules={earning.rules}
          share={share}
          runnable={runnable}
          settings={settings}
          onUse={(rules) => onChange({ earning: { ...earning, rules } })}
          onCheck={onChange}
        />
      ) : null}
      {earning.kind === "none" || runnable === null ? null : (
        <WeakestDay groupId={groupId} settings={runnable} />
      )}
      {earning.kind === "none" ? null : (
        <>
          <p className="earning-caution">{say("earning.caution")}</p>
          <Taking earning={earning} onChange={(next) => onChange({ earning: next })} />
        </>
      )}
    </Section>
  );
}

function earningOf(kind: (typeof kinds)[number], before: Earning, share: number): Earning {
  if (kind === "none") return { kind };
  const usual = usualRules(share);
  const rules = kind === "usual" || before.kind === "none" ? usual : before.rules;
  return withTaking({ kind, rules }, takesPoints(before));
}

type Paying = Exclude<Earning, { readonly kind: "none" }>;

function withTaking({ takes: _before, ...earning }: Paying, takes: boolean): Paying {
  return takes ? { ...earning, takes } : earning;
}

/** Whether points can be taken back: not at first, and with what has to be known beside it. */
function Taking({ earning, onChange }: { earning: Paying; onChange: (earning: Paying) => void }) {
  const say = useSay();
  return (
    <>
      <Switch
        label={say("earning.takes")}
        value={takesPoints(earning)}
        onChange={(takes) => onChange(withTaking(earning, takes))}
      />
      {takesPoints(earning) ? <p className="earning-caution">{say("earning.takesHelp")}</p> : null}
    </>
  );
}

function UsualNote({ rules, share }: { rules: EarningRules; share: number }) {
  const say = useSay();
  const formats = useFormats();
  const { mark, on, match } = usualRules(share, usualTimes(rules));
  return (
    <Notice>
      {say(on > 0 ? "earning.usual.says" : "earning.usual.saysRare", {
        mark,
        on,
        match,
        share: formats.percent(share),
      })}
    </Notice>
  );
}

const fields = ["mark", "on", "match", "goal", "item", "workGoal", "minute"] as const;

function OwnRules({
  rules,
  onChange,
}: {
  rules: EarningRules;
  onChange: (r: EarningRules) => void;
}) {
  const say = useSay();
  const whole = (value: number, least: number, limit: number) =>
    Number.isFinite(value) ? Math.min(limit, Math.max(least, Math.round(value))) : least;
  return (
    <div className="earning-rules">
      {fields.map((field) => (
        <NumberField
          key={field}
          label={say(`earning.rule.${field}`)}
          unit={say("earning.points")}
          value={rules[field]}
          minValue={0}
          maxValue={most}
          step={1}
          onChange={(value) => onChange({ ...rules, [field]: whole(value, 0, most) })}
        />
      ))}
      {rules.goal > 0 ? (
        <NumberField
          label={say("earning.goalShare")}
          unit="%"
          value={Math.round(100 * rules.goalShare)}
          minValue={5}
          maxValue={100}
          step={5}
          onChange={(value) => onChange({ ...rules, goalShare: whole(value, 5, 100) / 100 })}
        />
      ) : null}
      {rules.workGoal > 0 ? (
        <NumberField
          label={say("earning.workItems")}
          value={rules.workItems}
          minValue={1}
          maxValue={500}
          step={1}
          onChange={(value) => onChange({ ...rules, workItems: whole(value, 1, 500) })}
        />
      ) : null}
    </div>
  );
}

interface TruthProps {
  groupId: string;
  rules: EarningRules;
  share: number;
  runnable: PlanSettings | null;
  settings: PlanSettings;
  onUse: (rules: EarningRules) => void;
  onCheck: (part: Pick<PlanSettings, "checkPace" | "studentsPerCheck">) => void;
}

/** Whether an honest record pays best; where it does not, what would correct it. */
function TruthNote(props: TruthProps) {
  const { groupId, rules, share, runnable, settings, onUse, onCheck } = props;
  const say = useSay();
  const students = useStudents(groupId).data?.length ?? 0;
  const formats = useFormats();
  const sessions = useSessionsADay(groupId);
  const verdict = truthPays(rules, share);
  if (verdict === "pays") return <Notice>{say("earning.truth.pays")}</Notice>;
  if (verdict === "not-claimed") return <Notice>{say("earning.truth.goal")}</Notice>;
  const match = leastTruthfulMatch(rules.on, share);
  const cuesADay = runnable === null ? 0 : sessions * expectedCues(runnable);
  const perCheck = leastTruthfulChecks(rules, students);
  const isAtEvery = settings.checkPace === "every" || settings.checkPace === "automatic";
  const isPlanned = perCheck !== null && isAtEvery && settings.studentsPerCheck >= perCheck;
  const gain = alwaysYesGain(rules, share, { onTask: 0.5, cuesADay });
  return (
    <Notice kind="caution" title={say("earning.truth.title")}>
      <p>
        {say("earning.truth.gain", {
          gain: formats.number(gain, 1),
          share: formats.percent(share),
        })}
      </p>
      <div className="earning-repair">
        <Button onPress={() => onUse({ ...rules, on: 0 })}>{say("earning.truth.noOn")}</Button>
        {match === null || match > most ? null : (
          <Button onPress={() => onUse({ ...rules, match })}>
            {say("earning.truth.match", { match })}
          </Button>
        )}
        {perCheck === null || isPlanned ? null : (
          <Button
            onPress={() =>
              onCheck({
                checkPace: "every",
                studentsPerCheck: Math.max(perCheck, settings.studentsPerCheck),
              })
            }
          >
            {say("earning.truth.checkAll", {
              students: Math.max(perCheck, settings.studentsPerCheck),
            })}
          </Button>
        )}
      </div>
      <p>{say(isPlanned ? "earning.truth.checksPlanned" : "earning.truth.moreChecks")}</p>
    </Notice>
  );
}

/** What the student with the lowest income can expect of a day; for the adult alone. */
function WeakestDay({ groupId, settings }: { groupId: string; settings: PlanSettings }) {
  const say = useSay();
  const outlook = usePrices(groupId, settings, usePoints(groupId));
  const day = outlook?.prices.students[outlook.weakest]?.day;
  if (outlook === null || day === undefined) return null;
  return (
    <p>
      {say("earning.weakest", {
        mean: Math.round(day.mean),
        low: day.quantiles.q10,
        high: day.quantiles.q90,
        sessions: outlook.sessions,
      })}{" "}
      {outlook.borrowed ? say("earning.weakest.borrowed") : null}
    </p>
  );
}
