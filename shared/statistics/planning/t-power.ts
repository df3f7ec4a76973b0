import { fractionalCriticalT } from "../fractional-t.ts";
import { normalCdf } from "../normal.ts";

/**
 * Power of a two-sided t test: the probability that Student's t with `degrees` degrees of freedom and
 * noncentrality `effect` (the true difference in standard errors) lies beyond the critical value on the side
 * of the effect. From 0 to 1; accurate to about one in a hundred from 4 degrees on.
 *
 * Source: Johnson NL, Welch BL (1940) Applications of the non-central t-distribution, Biometrika 31:362-389,
 * their normal approximation.
 * Example: tPower(3, 18) // 0.81, as R's pt(qt(.975, 18), 18, ncp = 3, lower.tail = FALSE)
 *
 * @throws RangeError unless there are degrees of freedom.
 */
export function tPower(effect: number, degrees: number, confidence = 0.95): number {
  if (!(degrees > 0)) throw new RangeError(`degrees must be above 0; got ${degrees}.`);
  const t = fractionalCriticalT(confidence, degrees);
  const shift = t * (1 - 1 / (4 * degrees));
  return normalCdf((effect - shift) / Math.sqrt(1 + (t * t) / (2 * degrees)));
}
