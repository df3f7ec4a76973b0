import { type ReactNode, useState } from "react";
import type { Plan } from "../../shared/api/plans.ts";
import type { Group } from "../../shared/roster/roster.ts";
import { usePlanChoice } from "../api/queries.ts";
import { useStartSession } from "./start-session.ts";
import { useCheckedStart } from "./use-checked-start.tsx";

/** What a place needs from which a group's session can be started. */
export interface GroupStart {
  readonly plans: readonly Plan[];
  /** The chosen plan, or the group's first; undefined until it is known. */
  readonly plan: Plan | undefined;
  readonly choosePlan: (planId: string) => void;
  /** Whether a press can start it: somebody is in the group and no session is open. */
  readonly canStart: boolean;
  /** Call within a press, so that the page may sound. */
  readonly press: () => void;
  /** The steps before a start, such as the first sound check; to be shown near the press. */
  readonly steps: ReactNode;
  readonly error: unknown;
}

/** Starts seatwork of one group, wherever the button stands. */
export function useStartGroup(group: Pick<Group, "id" | "studentCount">): GroupStart {
  const [chosenId, choosePlan] = useState<string | null>(null);
  const { plans, plan } = usePlanChoice(group.id, chosenId);
  const starting = useStartSession();
  const { press, check } = useCheckedStart(plan, (around) => {
    if (plan !== undefined) starting.start({ plan, kind: "seatwork", ...around });
  });
  const canStart = plan !== undefined && group.studentCount > 0 && starting.mayStart;
  return { plans, plan, choosePlan, canStart, press, steps: check, error: starting.error };
}
