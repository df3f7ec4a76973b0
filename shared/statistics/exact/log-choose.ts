/**
 * Log of the number of ways to choose k of n, summed factor by factor; whole numbers, k from 0 to n.
 *
 * Example: logChoose(4, 2) // 1.79, the log of 6
 */
export function logChoose(n: number, k: number): number {
  const few = Math.min(k, n - k);
  let sum = 0;
  for (let i = 1; i <= few; i += 1) sum += Math.log((n - few + i) / i);
  return sum;
}
