import { useQuery } from "@tanstack/react-query";
import type { HowSure } from "../../shared/reading/how-sure/how-sure.ts";
import type { OwnPlan } from "../../shared/reading/how-sure/how-sure-plan.ts";
import { computeAside } from "./compute-line.ts";

/** How often what is said is wrong, for a plan; the same plan has the same figures, so they are kept. */
export function useHowSure(plan: OwnPlan | null) {
  return useQuery({
    queryKey: ["how sure", plan?.cues ?? 0, plan?.rate ?? 0, plan?.perWeek ?? 0],
    queryFn: async (): Promise<HowSure> => {
      if (plan === null) throw new Error("No plan");
      const computed = await computeAside({ kind: "sure", plan });
      if (computed.kind !== "sure") throw new Error("Something else was computed.");
      return computed.sure;
    },
    enabled: plan !== null,
    staleTime: Number.POSITIVE_INFINITY,
  });
}
