import { always, type Distribution } from "./distribution.ts";

/**
 * Chances of 0 ... n successes in n trials that are alike: each succeeds with the chance q, and two of them
 * correlate by rho. The beta-binomial with alpha = q (1 - rho) / rho, beta = (1 - q)(1 - rho) / rho; the
 * binomial for rho = 0. Mean n q, variance n q (1 - q)(1 + (n - 1) rho).
 *
 * Example: betaBinomial(2, 0.5, 0)[1] // 0.5
 *
 * @throws RangeError unless n is a whole number from 0 up, q from 0 to 1, rho at least 0 and below 1.
 */
export function betaBinomial(n: number, q: number, rho: number): Distribution {
  if (!Number.isInteger(n) || n < 0) {
    throw new RangeError(`n must be a whole number from 0 up; got ${n}.`);
  }
  if (!(q >= 0 && q <= 1)) throw new RangeError(`q must be from 0 to 1; got ${q}.`);
  if (!(rho >= 0 && rho < 1))
    throw new RangeError(`rho must be at least 0 and below 1; got ${rho}.`);
  if (q === 0) return ofLength(always(0), n + 1);
  if (q === 1) return always(n);
  // Drawn from an urn: after k successes and m failures the odds are (q + k r) : (1 - q + m r).
  const r = rho / (1 - rho);
  let log = 0;
  for (let failures = 0; failures < n; failures++) {
    log += Math.log((1 - q + failures * r) / (1 + failures * r));
  }
  const chances = new Float64Array(n + 1);
  for (let k = 0; k <= n; k++) {
    chances[k] = Math.exp(log);
    const odds = (q + k * r) / (1 - q + (n - k - 1) * r);
    log += Math.log(((n - k) / (k + 1)) * odds);
  }
  return chances;
}

function ofLength(chances: Distribution, length: number): Distribution {
  const longer = new Float64Array(length);
  longer.set(chances);
  return longer;
}
