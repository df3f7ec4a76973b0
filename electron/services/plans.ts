import type { PlanSettings } from "../../shared/plan/plan.ts";
import { checkPlan } from "../../shared/schedule/check-plan.ts";
import type { Store } from "../store/store.ts";
import type { Changes } from "./base/changes.ts";
import type { DesktopClock } from "./base/clock.ts";
import type { Handlers } from "./base/handlers.ts";
import { knownGroup } from "./base/known.ts";
import { Missing, Refusal } from "./base/refusal.ts";
import { addFirstPlan } from "./roster.ts";

/** A group's plans: at least one at any time, and only such as can be run. */
export function planHandlers(
  store: Store,
  changes: Changes,
  clock: Pick<DesktopClock, "wallMs">,
): Handlers["plans"] {
  return {
    list: ({ groupId }) => store.plans.list(groupId),

    create(facts) {
      knownGroup(store, facts.groupId);
      refuseImpossible(facts.settings);
      const plan = store.plans.create(facts, clock.wallMs());
      changes.publish("plans", "points", "program");
      return plan;
    },

    update(change) {
      const plan = store.plans.get(change.id);
      if (plan === null) throw new Missing("plan");
      refuseImpossible(change.settings);
      store.plans.update(change);
      changes.publish("plans", "points", "program");
      return { ...plan, ...change };
    },

    archive({ id }) {
      const plan = store.plans.get(id);
      if (plan === null) throw new Missing("plan");
      store.transaction(() => {
        store.plans.archive(id, clock.wallMs());
        if (store.plans.list(plan.groupId).length > 0) return;
        addFirstPlan(store, plan.groupId, clock.wallMs());
      });
      changes.publish("plans", "points", "program");
      return {};
    },
  };
}

/** A plan that cannot be run is refused with its first problem. */
export function refuseImpossible(settings: PlanSettings): void {
  const problem = checkPlan(settings)[0];
  if (problem === undefined) return;
  throw new Refusal(
    "plan-impossible",
    `This plan cannot be run (${problem.code}). Take the nearest one that can, or change it.`,
    { ...problem.values, problem: problem.code },
  );
}
