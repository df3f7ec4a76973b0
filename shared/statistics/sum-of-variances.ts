/** One way to say how uncertain an estimate is: its variance and the degrees of freedom behind it. */
export interface Uncertainty {
  readonly variance: number;
  readonly degrees: number;
}

/**
 * Sum of independent variances; its degrees of freedom by Satterthwaite.
 *
 * Source: Satterthwaite FE (1946), Biometrics Bulletin 2:110-114.
 *
 * Example: sumOfVariances([{ variance: 1, degrees: 4 }, { variance: 1, degrees: 4 }]) // { variance: 2, degrees: 8 }
 */
export function sumOfVariances(parts: readonly Uncertainty[]): Uncertainty {
  let variance = 0;
  let squares = 0;
  for (const part of parts) {
    variance += part.variance;
    squares += part.variance ** 2 / part.degrees;
  }
  return { variance, degrees: squares === 0 ? 1 : (variance * variance) / squares };
}
