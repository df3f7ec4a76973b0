/** One cell of a calibration table: how often something was said, and how often it may be. */
export interface CalibrationRow {
  /** Who or what was simulated. */
  readonly condition: string;
  /** What was said, covered or found. */
  readonly statement: string;
  /** Share of the replicates, 0 to 1. */
  readonly share: number;
  readonly replicates: number;
  /** The share promised; null for figures that are only printed. */
  readonly goal: { readonly atMost: number } | { readonly atLeast: number } | null;
}

/** Writes the rows of one condition, whose outcomes were counted together. */
export function rowsUnder(
  condition: string,
  replicates: number,
  share: (outcome: string) => number,
) {
  return (statement: string, outcome: string, goal: CalibrationRow["goal"]): CalibrationRow => ({
    statement,
    condition,
    share: share(outcome),
    replicates,
    goal,
  });
}

/**
 * By how many standard errors a share misses its goal; 0 or less when it is met, and without a goal. The
 * error is that of a share which lies at the goal itself.
 */
export function missedBy({ share, replicates, goal }: CalibrationRow): number {
  if (goal === null) return 0;
  const bound = "atMost" in goal ? goal.atMost : goal.atLeast;
  const error = Math.sqrt((bound * (1 - bound)) / replicates);
  const over = "atMost" in goal ? share - bound : bound - share;
  return over <= 0 ? 0 : over / Math.max(error, 1e-9);
}
