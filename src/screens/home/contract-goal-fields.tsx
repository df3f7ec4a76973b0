import { contractOutcome, contractTally } from "../../../shared/home/contract.ts";
import { contractDays, sessionsTried } from "../../../shared/home/contract-days.ts";
import { Button } from "../../parts/button.tsx";
import { Choices, NumberField } from "../../parts/field.tsx";
import { useFormats, useSay } from "../../text/text.tsx";
import { type ContractFacts, kinds } from "./contract-facts.ts";
import { MatchNote, type OnRecord } from "./match-note.tsx";
import { useNextStep } from "./use-next-step.ts";

export interface GoalFieldsProps extends OnRecord {
  facts: ContractFacts;
  change: (part: Partial<ContractFacts>) => void;
  /** Whether a contract stands before this one, whose record proposes the step. */
  isNext: boolean;
}

/** The goal of a contract, and what the record says to it while it is set. */
export function ContractGoalFields(props: GoalFieldsProps) {
  const say = useSay();
  const { facts, change, goal, counts, studentId, isNext } = props;
  const { kind, share, correct } = facts;
  return (
    <>
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
      <MatchNote goal={goal} counts={counts} studentId={studentId} />
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
        {isNext ? (
          <NextStep
            goal={goal}
            counts={counts}
            studentId={studentId}
            onTake={(share) => change({ share })}
          />
        ) : null}
      </div>
      <Tried goal={goal} counts={counts} studentId={studentId} />
    </>
  );
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
