import { proposedRate } from "../../../shared/home/contract.ts";
import { contractDays, rateOfDay } from "../../../shared/home/contract-days.ts";
import type { ContractGoal } from "../../../shared/home/contract-terms.ts";
import type { GroupCounts } from "../../../shared/record/group-counts.ts";
import { useAsk } from "../../api/queries.ts";

/** Days with data that a proposal looks at. */
const daysLooked = 10;

/** The next step by the last ten days with data, 0 to 1; no goal to hold stands above work done. */
export function useNextStep(
  counts: GroupCounts,
  studentId: string,
  goal: ContractGoal,
): number | null {
  const groupId = counts.group.id;
  const program = useAsk("program", [groupId], (api) => api.program.get({ groupId })).data;
  const rates = contractDays(counts, studentId, goal).flatMap((day) => rateOfDay(goal, day) ?? []);
  return proposedRate(rates.slice(-daysLooked), goal.kind === "work" ? 1 : (program?.goal ?? 1));
}
