/**
 * By how much the variance of a mean of `count` values of a first-order autoregression exceeds that of as
 * many independent ones: (1 + r) / (1 - r) - 2 r (1 - r^n) / (n (1 - r)^2), which is
 * 1 + 2 sum over lags j of (1 - j/n) r^j.
 *
 * Source: Box GEP, Jenkins GM (1970) Time Series Analysis, 2.1.5 (from memory; checked against the sum).
 * Example: meanInflation(3, 0.2) // 1.2933
 *
 * @throws RangeError unless count is 1 or more and the correlation from 0 up to below 1.
 */
export function meanInflation(count: number, correlation: number): number {
  if (!(count >= 1)) throw new RangeError(`count must be 1 or more; got ${count}.`);
  if (!(correlation >= 0 && correlation < 1))
    throw new RangeError(`correlation must be from 0 up to below 1; got ${correlation}.`);
  const rest = 1 - correlation;
  const ends = (2 * correlation * (1 - correlation ** count)) / (count * rest * rest);
  return (1 + correlation) / rest - ends;
}
