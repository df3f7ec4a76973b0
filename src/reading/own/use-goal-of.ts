import { programFor } from "../../../shared/roster/program.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { usePoints } from "../../class/points/use-points.ts";
import { useProgram } from "../use-program.ts";

/**
 * The goal a child works for, 0 to 1: the one set for the child, for points or to hold, if any, else the
 * program's; undefined until all are known.
 */
export function useGoalOf(
  groupId: string,
): ((student: Pick<Student, "id" | "holdGoal">) => number) | undefined {
  const program = useProgram(groupId);
  const points = usePoints(groupId);
  if (program === undefined || points === undefined) return undefined;
  return (student) =>
    points.ownGoals.find(({ studentId }) => studentId === student.id)?.share ??
    programFor(program, student).goal;
}
