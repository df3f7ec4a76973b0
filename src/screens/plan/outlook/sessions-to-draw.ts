/** Where the planner's chart ends: somewhat after the answer, and far enough to have a shape. */
export function sessionsToDraw(answer: number): number {
  return Math.max(16, Math.ceil(answer * 1.3));
}
