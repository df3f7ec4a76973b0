import type { AdviceDecision, Program } from "../../../shared/api/program.ts";
import { fadedPlan } from "../../../shared/schedule/fading.ts";
import type { Api } from "../../api/api.ts";
import { useAsk, usePlans, useTell } from "../../api/queries.ts";

/** Where a group's program stands; undefined until it is known. */
export const useProgram = (groupId: string): Program | undefined =>
  useAsk("program", ["program", groupId], (api) => api.program.get({ groupId })).data;

/** What was decided on earlier advice, newest first; for one student, or for the group as a whole. */
export function useDecisions(groupId: string, studentId: string | null): readonly AdviceDecision[] {
  const all = useAsk("program", ["decisions", groupId], (api) => api.advice.decisions({ groupId }));
  return (all.data ?? [])
    .filter((decision) => decision.studentId === studentId)
    .toSorted((a, b) => b.decidedMs - a.decidedMs);
}

export interface Decision {
  readonly studentId: string | null;
  readonly advice: AdviceDecision["advice"];
  readonly accepted: boolean;
  readonly note: string;
  /** Where an accepted advice leads; null when it moves nothing. */
  readonly toPlace: number | null;
}

/**
 * Keeps what was decided. An accepted step also moves the program, and gives the group's first plan the
 * mean of the new step. The decision is written first: a plan never changes without its reason.
 */
export function useDecide(program: Program) {
  const plans = usePlans(program.groupId);
  const plan = plans.data?.[0];
  return useTell(async (api: Api, { toPlace, ...decision }: Decision) => {
    await api.advice.decide({ groupId: program.groupId, ...decision });
    if (!decision.accepted || toPlace === null) return;
    const mean = program.stepMeansSeconds[toPlace];
    if (mean !== undefined && plan !== undefined) {
      const { id, name, settings } = plan;
      await api.plans.update({ id, name, settings: fadedPlan(settings, mean) });
    }
    const { placeSince: _, ...standing } = program;
    await api.program.save({ ...standing, place: toPlace });
  });
}
