import { programFor } from "../../shared/roster/program.ts";
import { useStudents } from "../api/queries.ts";
import { usePoints } from "../points/use-points.ts";
import { useProgram } from "../reading/use-program.ts";

/**
 * The goal a child works for, 0 to 1: the own goal where there is one, else the child's own hold goal, else
 * the program's; undefined until they are known.
 */
export function useGoalOf(groupId: string): ((studentId: string) => number) | undefined {
  const program = useProgram(groupId);
  const points = usePoints(groupId);
  const students = useStudents(groupId).data;
  if (program === undefined || points === undefined || students === undefined) return undefined;
  return (studentId) =>
    points.ownGoals.find((own) => own.studentId === studentId)?.share ??
    programFor(
      program,
      students.find(({ id }) => id === studentId),
    ).goal;
}
