import type { PlanSettings } from "../../../shared/plan/plan.ts";
import { checkPlan } from "../../../shared/schedule/check-plan.ts";
import { Refusal } from "../base/refusal.ts";

/** @throws Refusal for a plan under which no session can be held */
export function checkRunnable(plan: PlanSettings): void {
  const problem = checkPlan(plan)[0];
  if (problem === undefined) return;
  throw new Refusal(
    "plan-impossible",
    `This plan cannot be run (${problem.code}). Open the plan and take the nearest one that can.`,
    { ...problem.values, problem: problem.code },
  );
}
