import type { SessionKind } from "./event.ts";

/** Among so many newest sessions of a group its latest seatwork is sought. */
export const sessionsForPlanInUse = 20;

/**
 * The plan under which a group's latest seatwork sat, found by its name because a session keeps a copy
 * of its plan; else the group's first. Null when the group has no plan.
 *
 * @param newestFirst the group's sessions, as many as `sessionsForPlanInUse`
 */
export function planInUse<Plan extends { readonly name: string }>(
  plans: readonly Plan[],
  newestFirst: readonly { readonly kind: SessionKind; readonly planName: string }[],
): Plan | null {
  const latest = newestFirst.find(({ kind }) => kind === "seatwork");
  return plans.find(({ name }) => name === latest?.planName) ?? plans[0] ?? null;
}
