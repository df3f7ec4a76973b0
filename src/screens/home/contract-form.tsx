import { dayNumber, dayText } from "../../../shared/calendar/calendar.ts";
import { contractOutcome, contractTally, longestToReview } from "../../../shared/home/contract.ts";
import { contractDays, sessionsTried } from "../../../shared/home/contract-days.ts";
import { mayMeasure, selfMatch } from "../../../shared/home/contract-match.ts";
import {
  type ContractGoal,
  type ContractTerms,
  contractTermsSchema,
  isSelfRecorded,
  mostCost,
  mostEarned,
} from "../../../shared/home/contract-terms.ts";
import { takesPoints } from "../../../shared/plan/earning.ts";
import { neverAPrivilege } from "../../../shared/points/never-a-privilege.ts";
import type { GroupCounts } from "../../../shared/record/group-counts.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { usePlans, useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { DayField } from "../../parts/day-field.tsx";
import { Choices, NumberField, Switch, TextField } from "../../parts/field.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useKeptForm } from "../../parts/sheet/use-kept-form.ts";
import { usePoints } from "../../points/use-points.ts";
import { useFormats, useSay } from "../../text/text.tsx";
import { MatchNote, type OnRecord } from "./match-note.tsx";
import { StillHere } from "./still-here.tsx";
import { useNextStep } from "./use-next-step.ts";

const kinds = ["work", "adult", "self"] as const;
type Kind = (typeof kinds)[number];

const kindOf = (goal: ContractGoal): Kind => (goal.kind === "work" ? "work" : goal.measure);
const usualShare = 70;
const usualPoints = 3;
const usualDays = 14;

/** Under what name a student's contract is kept while it is being written. */
export const contractForm = (studentId: string): string => `${studentId}/contract`;

interface FormProps {
  student: Student;
  today: string;
  counts: GroupCounts;
  /** Whether it was agreed that this student earns points, and may have some taken. */
  mayEarn: boolean;
  mayCost: boolean;
  /** The contract before, from which the next one begins. */
  before: ContractTerms | null;
  onDone: () => void;
  canCancel: boolean;
}

/** A contract as it is written with the student: the record answers each change of the goal at once. */
export function ContractForm(props: FormProps) {
  const say = useSay();
  const { student, today, counts, before, onDone, canCancel } = props;
  const pointsOn = (usePoints(student.groupId)?.on ?? false) && props.mayEarn;
  const first = firstFacts(before, today);
  const { facts, wasKept, change, begin } = useKeptForm(contractForm(student.id), first);
  const { wording, kind, share, correct, points, earns, cost, checkedBy, fromDay, reviewOn } =
    facts;
  const goal = goalOf(kind, share, correct);
  const plans = usePlans(student.groupId).data ?? [];
  const takes = plans.some(({ settings }) => takesPoints(settings.earning));
  const canCost = pointsOn && takes && props.mayCost && !isSelfRecorded(goal);
  const terms = {
    wording,
    goal,
    points: pointsOn ? points : 0,
    earns,
    cost: canCost ? cost : 0,
    checkedBy,
  };
  const add = useTell((api, agreed: ContractTerms) =>
    api.contracts.add({ studentId: student.id, terms: agreed, fromDay, reviewOn }),
  );
  const done = () => {
    begin(first);
    onDone();
  };
  const ahead = dayNumber(reviewOn) - dayNumber(fromDay);
  const isSoon = ahead >= 1 && ahead <= longestToReview;
  const written = contractTermsSchema.safeParse(terms);
  const canMeasure = mayMeasure(goal, selfMatch(counts, student.id));
  const { name } = student;
  const forAll = neverAPrivilege(earns);
  return (
    <div className="home-form">
      {wasKept ? <StillHere onBegin={() => begin(first)} /> : null}
      <Choices
        label={say("contract.kind")}
        value={kind}
        onChange={(kind) => change({ kind })}
        choices={kinds.map((value) => ({
          value,
          label: say(`contract.kind.${value}`),
          help: say(`contract.kind.${value}Help`),
        }))}
      />
      <MatchNote goal={goal} counts={counts} studentId={student.id} />
      <div className="home-row home-numbers">
        <NumberField
          label={say("contract.share")}
          value={share}
          minValue={5}
          maxValue={100}
          step={1}
          onChange={(share) => change({ share })}
        />
        {kind === "work" ? (
          <NumberField
            label={say("contract.correct")}
            help={say("contract.correctHelp")}
            value={correct}
            minValue={0}
            maxValue={100}
            step={1}
            onChange={(correct) => change({ correct })}
          />
        ) : null}
        {before === null ? null : (
          <NextStep
            goal={goal}
            counts={counts}
            studentId={student.id}
            onTake={(share) => change({ share })}
          />
        )}
      </div>
      <Tried goal={goal} counts={counts} studentId={student.id} />
      <div className="home-row">
        {pointsOn ? (
          <NumberField
            label={say("contract.earnsPoints")}
            value={points}
            minValue={0}
            maxValue={mostEarned}
            onChange={(points) => change({ points })}
          />
        ) : null}
        <TextField
          label={say("contract.earns")}
          help={say("contract.earnsHelp", { name })}
          value={earns}
          onChange={(earns) => change({ earns })}
          maxLength={120}
          problem={
            forAll !== null
              ? say("points.never", { word: forAll })
              : terms.points === 0 && earns.trim() === ""
                ? say("contract.nothingEarned")
                : undefined
          }
        />
      </div>
      {canCost ? <Cost cost={cost} onChange={(cost) => change({ cost })} /> : null}
      <div className="home-row">
        <TextField
          label={say("contract.checkedBy")}
          value={checkedBy}
          onChange={(checkedBy) => change({ checkedBy })}
          maxLength={60}
        />
        <DayField
          label={say("contract.from")}
          value={fromDay}
          onChange={(fromDay) => change({ fromDay })}
        />
        <DayField
          label={say("contract.review")}
          help={say("contract.reviewHelp")}
          value={reviewOn}
          onChange={(reviewOn) => change({ reviewOn })}
        />
      </div>
      <Choices
        label={say("contract.wording")}
        inRow
        value={wording}
        onChange={(wording) => change({ wording })}
        choices={(["young", "older"] as const).map((value) => ({
          value,
          label: say(`contract.wording.${value}`),
        }))}
      />
      <div className="home-acts">
        <Button
          look="main"
          isDisabled={!written.success || !isSoon || !canMeasure || add.isPending}
          onPress={() => {
            if (written.success) add.mutate(written.data, { onSuccess: done });
          }}
        >
          {say("contract.save")}
        </Button>
        {canCancel ? <Button onPress={done}>{say("contract.cancel")}</Button> : null}
        {checkedBy.trim() === "" ? (
          <span className="home-help">{say("contract.whoMissing")}</span>
        ) : null}
        {isSoon ? null : <span className="home-help">{say("refused.contract-review-late")}</span>}
      </div>
      <Problem error={add.error} />
    </div>
  );
}

/** What is being written of a contract. */
interface ContractFacts {
  readonly wording: ContractTerms["wording"];
  readonly kind: Kind;
  readonly share: number;
  readonly correct: number;
  readonly points: number;
  readonly earns: string;
  readonly cost: number;
  readonly checkedBy: string;
  readonly fromDay: string;
  readonly reviewOn: string;
}

const firstFacts = (before: ContractTerms | null, today: string): ContractFacts => ({
  wording: before?.wording ?? "young",
  kind: before === null ? "work" : kindOf(before.goal),
  share: percentOf(before),
  correct: correctOf(before),
  points: before?.points ?? usualPoints,
  earns: before?.earns ?? "",
  cost: before?.cost ?? 0,
  checkedBy: before?.checkedBy ?? "",
  fromDay: today,
  reviewOn: dayText(dayNumber(today) + usualDays),
});

function percentOf(before: ContractTerms | null): number {
  if (before === null) return usualShare;
  const { goal } = before;
  return Math.round(100 * (goal.kind === "work" ? goal.completed : goal.rate));
}

function correctOf(before: ContractTerms | null): number {
  const share = before?.goal.kind === "work" ? before.goal.correct : null;
  return Math.round(100 * (share ?? 0));
}

function goalOf(kind: Kind, percent: number, correct: number): ContractGoal {
  const share = percent / 100;
  if (kind !== "work") return { kind: "rate", rate: share, measure: kind };
  return { kind: "work", completed: share, correct: correct === 0 ? null : correct / 100 };
}

/** How often the last ten sessions would have met the goal as it stands; it keeps its place while typed. */
function Tried({ goal, counts, studentId }: OnRecord) {
  const say = useSay();
  const days = contractDays(counts, studentId, goal, sessionsTried);
  const { met, notYet, noData } = contractTally(days.map((day) => contractOutcome(goal, day)));
  const counted = met + notYet;
  return (
    <p className="home-tried" role="status">
      {counted === 0 ? say("contract.triedNone") : say("contract.tried", { met, counted, noData })}{" "}
      {counted > 0 && 2 * met < counted ? say("contract.triedHard") : null}
    </p>
  );
}

/** The step that a review proposes, to be taken by a press. */
function NextStep(props: OnRecord & { onTake: (percent: number) => void }) {
  const say = useSay();
  const formats = useFormats();
  const next = useNextStep(props.counts, props.studentId, props.goal);
  if (next === null) return null;
  return (
    <div className="home-beside">
      <Button onPress={() => props.onTake(Math.round(100 * next))}>
        {say("contract.take", { percent: formats.percent(next) })}
      </Button>
    </div>
  );
}

/** What a day without it may cost: off until somebody wants it. */
function Cost({ cost, onChange }: { cost: number; onChange: (cost: number) => void }) {
  const say = useSay();
  return (
    <div className="home-stop">
      <Switch
        label={say("contract.costs")}
        value={cost > 0}
        onChange={(isOn) => onChange(isOn ? 1 : 0)}
      />
      <p className="home-help">{say("contract.costHelp")}</p>
      {cost > 0 ? (
        <NumberField
          label={say("contract.cost")}
          value={cost}
          minValue={1}
          maxValue={mostCost}
          onChange={onChange}
        />
      ) : null}
    </div>
  );
}
