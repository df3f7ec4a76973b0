import { useMemo } from "react";
import type { PlanProblem } from "../../../shared/schedule/check-plan.ts";
import { useSay } from "../../text/text.tsx";
import { type PlanField, placeOfProblem } from "./fields/problem-places.ts";
import { wordPlanProblem } from "./fields/word-problem.ts";

/** Where on the page each problem of the plan is said, and in which words. */
export function useProblems(problems: readonly PlanProblem[], changed: PlanField | null) {
  const say = useSay();
  return useMemo(() => {
    const said = new Map<PlanField, string>();
    let first: PlanField | null = null;
    for (const problem of problems) {
      const field = placeOfProblem(problem, changed);
      first ??= field;
      // A field whose text is no number says so itself.
      if (Number.isNaN(problem.values.value)) continue;
      const before = said.get(field);
      const words = wordPlanProblem(say, problem);
      said.set(field, before === undefined ? words : `${before} ${words}`);
    }
    return { first, problemAt: (field: PlanField) => said.get(field) };
  }, [problems, changed, say]);
}
