/** What a student got done in one session, in items; `correct` is null when nobody counted. */
export interface WorkItems {
  readonly assigned: number;
  readonly completed: number;
  readonly correct: number | null;
}

/** As many items as the app takes. */
export const mostItems = 2_000;

export const workColumns = ["assigned", "completed", "correct"] as const;
export type WorkColumn = (typeof workColumns)[number];

export type WorkProblem =
  /** No whole number from 0 to `mostItems`, or empty while the others are not. */
  | { readonly kind: "items"; readonly column: WorkColumn }
  | { readonly kind: "correct-over"; readonly correct: number; readonly completed: number };

/** The work of a row of text, null when all its fields are empty, or all that is wrong with them. */
export function readWork(
  fields: Readonly<Record<WorkColumn, string>>,
): WorkItems | null | WorkProblem[] {
  if (workColumns.every((column) => fields[column] === "")) return null;
  const problems: WorkProblem[] = [];
  for (const column of workColumns) {
    const isEmptyCorrect = column === "correct" && fields.correct === "";
    if (isEmptyCorrect || itemsIn(fields[column]) !== undefined) continue;
    problems.push({ kind: "items", column });
  }
  const assigned = itemsIn(fields.assigned);
  const completed = itemsIn(fields.completed);
  const correct = itemsIn(fields.correct) ?? null;
  if (correct !== null && completed !== undefined && correct > completed)
    problems.push({ kind: "correct-over", correct, completed });
  if (problems.length > 0 || assigned === undefined || completed === undefined) return problems;
  return { assigned, completed, correct };
}

function itemsIn(field: string): number | undefined {
  const items = /^\d{1,6}$/.test(field) ? Number(field) : mostItems + 1;
  return items <= mostItems ? items : undefined;
}
