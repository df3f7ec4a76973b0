import { dayNumber } from "../../../shared/calendar/calendar.ts";
import { longestToReview } from "../../../shared/home/contract.ts";
import { mayMeasure, selfMatch } from "../../../shared/home/contract-match.ts";
import {
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
import { usePoints } from "../../class/points/use-points.ts";
import { Button } from "../../parts/button.tsx";
import { Choices, NumberField, Switch, TextField } from "../../parts/field.tsx";
import { DayField } from "../../parts/moment-field.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useKeptForm } from "../../parts/sheet/use-kept-form.ts";
import { useSay } from "../../text/text.tsx";
import { firstFacts, goalOf } from "./contract-facts.ts";
import { ContractGoalFields, type GoalFieldsProps } from "./contract-goal-fields.tsx";
import { StillHere } from "./still-here.tsx";

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
  const { wording, points, earns, cost, checkedBy, fromDay, reviewOn } = facts;
  const goal = goalOf(facts);
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
      <ContractGoalFields
        facts={facts}
        goal={goal}
        change={change}
        counts={counts}
        studentId={student.id}
        isNext={before !== null}
      />
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
                ? say("contract.nothingEarned", { points: pointsOn ? "yes" : "no" })
                : undefined
          }
        />
      </div>
      {canCost ? <Cost cost={cost} onChange={(cost) => change({ cost })} /> : null}
      <WhoAndWhen facts={facts} change={change} />
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

/** Who checks, and from when until when; and in whose words the paper speaks. */
function WhoAndWhen({ facts, change }: Pick<GoalFieldsProps, "facts" | "change">) {
  const say = useSay();
  const { checkedBy, fromDay, reviewOn, wording } = facts;
  return (
    <>
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
    </>
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
