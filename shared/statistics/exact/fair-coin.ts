import { logChoose } from "./log-choose.ts";

/**
 * P(X >= heads) for X ~ Binomial(tosses, 1/2): how often a fair coin does at least this well.
 *
 * Both arguments are whole numbers; `tosses` >= 0. The answer is between 0 and 1 and exact to rounding:
 * the log of the first term is summed factor by factor and the rest follow by their ratios, so that
 * thousands of tosses neither overflow nor lose the tail. O(tosses).
 *
 * Example: fairCoinUpperTail(8, 10) // 0.0547
 */
export function fairCoinUpperTail(heads: number, tosses: number): number {
  if (heads <= 0) return 1;
  if (heads > tosses) return 0;
  // Below the middle the first term may vanish while the sum does not; the other tail has no such trouble.
  if (2 * heads <= tosses) return 1 - fairCoinUpperTail(tosses - heads + 1, tosses);

  let term = Math.exp(logChoose(tosses, heads) - tosses * Math.LN2);
  let tail = term;
  for (let k = heads + 1; k <= tosses; k += 1) {
    term *= (tosses - k + 1) / k;
    tail += term;
  }
  return Math.min(1, tail);
}
