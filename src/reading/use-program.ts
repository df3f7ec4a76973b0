import type { Accepted, AdviceDecision } from "../../shared/api/advice.ts";
import type { Program } from "../../shared/roster/program.ts";
import { useAsk, useTell } from "../api/queries.ts";

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

/** Keeps what was decided where nothing moves. */
export const useDecide = () =>
  useTell((api, decision: Omit<AdviceDecision, "id" | "decidedMs" | "day">) =>
    api.advice.decide(decision),
  );

/** Takes an advised step: decision, plan, place and phase together. */
export const useAccept = () => useTell((api, step: Accepted) => api.advice.accept(step));
