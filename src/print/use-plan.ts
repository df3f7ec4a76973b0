import type { Plan } from "../../shared/api/plans.ts";
import type { Group } from "../../shared/roster/roster.ts";
import { useAsk } from "../api/queries.ts";

export interface PlanOfGroup {
  readonly plan: Plan;
  readonly group: Group;
}

/**
 * A plan by its id, with the group it belongs to; null when it is there no more. Groups laid aside are
 * looked through too: their paper is still read.
 */
export function usePlan(planId: string) {
  return useAsk("plans", ["one", planId], async (api): Promise<PlanOfGroup | null> => {
    const groups = await Promise.all(
      [false, true].map((archived) => api.groups.list({ archived })),
    );
    for (const group of groups.flat()) {
      const plans = await api.plans.list({ groupId: group.id });
      const plan = plans.find(({ id }) => id === planId);
      if (plan !== undefined) return { plan, group };
    }
    return null;
  });
}
