import { usePoints } from "../points/use-points.ts";
import { useProgram } from "../reading/use-program.ts";

/**
 * The goal a child works for, 0 to 1: the own goal where there is one, else the program's; undefined until
 * both are known.
 */
export function useGoalOf(groupId: string): ((studentId: string) => number) | undefined {
  const program = useProgram(groupId);
  const points = usePoints(groupId);
  if (program === undefined || points === undefined) return undefined;
  return (studentId) =>
    points.ownGoals.find((own) => own.studentId === studentId)?.share ?? program.goal;
}
