/** What a student got done in one session, in items; `correct` is null when nobody counted. */
export type Work = {
  readonly assigned: number;
  readonly completed: number;
  readonly correct: number | null;
};

/** As many items as the app takes. */
const mostItems = 2_000;

const columns = ["assigned", "completed", "correct"] as const;
type WorkFields = Readonly<Record<(typeof columns)[number], string>>;

/** The work of a row, null when all its fields are empty, or all that is wrong with them. */
export function readWork(fields: WorkFields): Work | null | string[] {
  if (columns.every((column) => fields[column] === "")) return null;
  const problems: string[] = [];
  for (const column of columns) {
    const isEmptyCorrect = column === "correct" && fields.correct === "";
    if (isEmptyCorrect || itemsIn(fields[column]) !== undefined) continue;
    problems.push(
      `${column} is "${fields[column]}"; write a whole number from 0 to ${mostItems}, or leave all three work fields empty.`,
    );
  }
  const assigned = itemsIn(fields.assigned);
  const completed = itemsIn(fields.completed);
  const correct = itemsIn(fields.correct) ?? null;
  if (correct !== null && completed !== undefined && correct > completed)
    problems.push(`correct is ${correct} of only ${completed} completed; mend one of the two.`);
  if (problems.length > 0 || assigned === undefined || completed === undefined) return problems;
  return { assigned, completed, correct };
}

function itemsIn(field: string): number | undefined {
  const items = /^\d{1,6}$/.test(field) ? Number(field) : mostItems + 1;
  return items <= mostItems ? items : undefined;
}
