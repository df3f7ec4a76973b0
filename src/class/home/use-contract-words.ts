import type { ContractGoal, ContractTerms } from "../../../shared/home/contract-terms.ts";
import { inCounts } from "../../../shared/home/in-counts.ts";
import { useSay } from "../../text/text.tsx";

/** Which sentence words a goal. */
const goalKind = (goal: ContractGoal) => {
  if (goal.kind === "work") return goal.correct === null ? "work" : "workCorrect";
  return goal.measure === "self" ? "rateSelf" : "rateAdult";
};

const countsOf = (goal: ContractGoal) => {
  const { times, every } = inCounts(goal.kind === "rate" ? goal.rate : goal.completed);
  const right = inCounts((goal.kind === "work" ? goal.correct : null) ?? 0);
  return { times, every, right: right.times, rightEvery: right.every };
};

/** What a day that meets the goal earns: points, what the student named, both, or nothing that is shown. */
function earnedBy({ points, earns }: Pick<ContractTerms, "points" | "earns">) {
  if (points > 0) return earns === "" ? "points" : "both";
  return earns === "" ? "nothing" : "words";
}

/** A contract in sentences: for the adult's screen, and for its paper in the child's own wording. */
export function useContractWords() {
  const say = useSay();
  return {
    goal: (goal: ContractGoal, name: string) =>
      say(`contract.goal.${goalKind(goal)}`, { name, ...countsOf(goal) }),
    paperGoal: ({ goal, wording }: ContractTerms) =>
      say(`contract.paper.${wording}.${goalKind(goal)}`, countsOf(goal)),
    earns: ({ points, earns }: ContractTerms) =>
      say("contract.earnsLine", {
        points,
        earns,
        both: earnedBy({ points, earns }),
      }),
  };
}
