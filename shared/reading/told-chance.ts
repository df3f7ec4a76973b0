import { chanceRule, judge } from "../advice/goal-chance.ts";
import type { Program } from "../roster/program.ts";
import { isSince } from "./advice-inputs.ts";
import type { StudentGlance } from "./group-reading.ts";

/**
 * How likely the newest sessions at the present step make it that a student is at the goal, 0 to 1; null
 * where too few sessions or marks decide, and for one whom only an observer recorded.
 */
export function toldChance(
  { observedOnly, newest }: Pick<StudentGlance, "observedOnly" | "newest">,
  program: Program,
): number | null {
  if (observedOnly) return null;
  const here = newest.filter((session) => isSince(session, program));
  const { marks, rates, chance } = judge(here, program.goal);
  const isTold = rates.length >= chanceRule.fewestSessions && marks >= chanceRule.fewestMarks;
  return isTold ? chance : null;
}
