/** A share as a child can count it. */
export interface InCounts {
  readonly times: number;
  readonly every: number;
}

/**
 * A share in whole percent as a count out of ten, else of twenty, else of a hundred: never another share
 * than the one that was agreed.
 *
 * Example: inCounts(0.7) // { times: 7, every: 10 }
 */
export function inCounts(share: number): InCounts {
  const percent = Math.round(100 * share);
  const every = percent % 10 === 0 ? 10 : percent % 5 === 0 ? 20 : 100;
  return { times: (percent * every) / 100, every };
}
