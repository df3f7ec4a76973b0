import { incompleteBeta } from "./incomplete-beta.ts";
import { criticalZ } from "./normal.ts";

/**
 * P(|T| <= t) for Student's t with any number of degrees of freedom above 0, whole or not; `studentCentral`
 * is the exact sum for whole numbers.
 *
 * Source: NIST Digital Library of Mathematical Functions, 8.17; Abramowitz M, Stegun IA (1964), Handbook of
 * Mathematical Functions, 26.5.27.
 *
 * Example: fractionalCentral(2.228139, 10) // 0.95
 *
 * @throws RangeError when t is below 0 or the degrees are not above 0.
 */
export function fractionalCentral(t: number, degrees: number): number {
  if (!(t >= 0 && degrees > 0)) {
    throw new RangeError(
      `Student's t must have t >= 0 and degrees above 0; got ${t} and ${degrees}.`,
    );
  }
  const square = t * t;
  // The smaller argument of the two keeps its digits.
  return square < degrees
    ? incompleteBeta(square / (degrees + square), 0.5, degrees / 2)
    : 1 - incompleteBeta(degrees / (degrees + square), degrees / 2, 0.5);
}

/** Two-sided p of a t value: how often chance alone lies as far from 0. Example: fractionalP(0, 5) // 1 */
export function fractionalP(t: number, degrees: number): number {
  const size = Math.abs(t);
  const square = size * size;
  return square < degrees
    ? 1 - fractionalCentral(size, degrees)
    : incompleteBeta(degrees / (degrees + square), degrees / 2, 0.5);
}

// A class asks for the same few again and again.
const found = new Map<string, number>();
const mostKept = 5_000;

/**
 * The t that leaves `1 - confidence` in the two tails together. Degrees are rounded to two decimals, which
 * moves the value by less than one part in two hundred at one degree and far less above.
 *
 * Example: fractionalCriticalT(0.95, 10) // 2.228139
 *
 * @throws RangeError when the degrees are under .01, or the confidence is not between 0 and 1.
 */
export function fractionalCriticalT(confidence: number, degrees: number): number {
  if (!(confidence > 0 && confidence < 1)) {
    throw new RangeError(`confidence must be between 0 and 1; got ${confidence}.`);
  }
  const rounded = Math.round(degrees * 100) / 100;
  const key = `${confidence} ${rounded}`;
  const known = found.get(key);
  if (known !== undefined) return known;
  const value = bisected(confidence, rounded);
  if (found.size >= mostKept) found.clear();
  found.set(key, value);
  return value;
}

function bisected(confidence: number, degrees: number): number {
  let low = criticalZ(confidence);
  if (degrees > 1_000_000) return low;
  let high = low * 2;
  while (fractionalCentral(high, degrees) < confidence) high *= 2;
  for (let step = 0; step < 60 && high - low > 1e-12 * high; step += 1) {
    const middle = (low + high) / 2;
    if (fractionalCentral(middle, degrees) < confidence) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
