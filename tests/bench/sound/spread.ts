/** Onset errors of one case, in ms. */
export interface Spread {
  readonly count: number;
  /** Median error: the constant part. */
  readonly constant: number;
  /** Distances from the median. */
  readonly median: number;
  readonly p95: number;
  readonly p99: number;
  readonly max: number;
}

/** The constant part of the errors and how far they spread about it (quantiles by nearest rank). */
export function spreadOf(errors: readonly number[]): Spread {
  const constant = quantile(errors, 0.5);
  const away = errors.map((error) => Math.abs(error - constant));
  return {
    count: errors.length,
    constant,
    median: quantile(away, 0.5),
    p95: quantile(away, 0.95),
    p99: quantile(away, 0.99),
    max: quantile(away, 1),
  };
}

function quantile(values: readonly number[], part: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(part * sorted.length) - 1)] ?? Number.NaN;
}
