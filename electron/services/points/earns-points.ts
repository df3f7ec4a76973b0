import type { Store } from "../../store/store.ts";

/** Whether a group earns points at all: a plan of it pays, and the school has not switched points off. */
export function earnsPoints(
  { settings, plans }: Pick<Store, "settings" | "plans">,
  groupId: string,
): boolean {
  if (!settings.get().points) return false;
  return plans.list(groupId).some((plan) => plan.settings.earning.kind !== "none");
}
