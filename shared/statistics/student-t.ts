import { criticalZ } from "./normal.ts";

/**
 * P(|T| <= t) for Student's t with a whole number of degrees of freedom, by the finite sums in the
 * angle atan(t / sqrt(df)).
 *
 * Source: Abramowitz M, Stegun IA (1964), Handbook of Mathematical Functions, 26.7.3 and 26.7.4.
 *
 * Example: studentCentral(2.228139, 10) // 0.95
 */
export function studentCentral(t: number, degrees: number): number {
  if (!Number.isInteger(degrees) || degrees < 1 || !(t >= 0)) {
    throw new RangeError(
      `t must be 0 or more, and degrees a whole number from 1; got ${t} and ${degrees}.`,
    );
  }
  const angle = Math.atan(t / Math.sqrt(degrees));
  const cosine = Math.cos(angle);
  const odd = degrees % 2 === 1;
  let term = odd ? cosine : 1;
  let sum = degrees === 1 ? 0 : term;
  for (let k = odd ? 3 : 2; k <= degrees - 2; k += 2) {
    term *= (cosine * cosine * (k - 1)) / k;
    sum += term;
  }
  return odd ? (2 / Math.PI) * (angle + Math.sin(angle) * sum) : Math.sin(angle) * sum;
}

// A class asks for the same few again and again, and each takes tens of sums.
const found = new Map<string, number>();

/**
 * The t that leaves `1 - confidence` in the two tails together: 2.228139 for 0.95 and 10 degrees.
 * Found by bisection on `studentCentral`, from the normal value upwards.
 *
 * Example: criticalT(0.95, 10) // 2.2281
 */
export function criticalT(confidence: number, degrees: number): number {
  const key = `${confidence} ${degrees}`;
  const value = found.get(key) ?? bisectedT(confidence, degrees);
  found.set(key, value);
  return value;
}

function bisectedT(confidence: number, degrees: number): number {
  let low = criticalZ(confidence);
  // Past this the difference from the normal value is below one part in a hundred million.
  if (degrees > 100_000_000) return low;
  let high = low * 2;
  while (studentCentral(high, degrees) < confidence) high *= 2;
  for (let step = 0; step < 60 && high - low > 1e-13 * high; step += 1) {
    const middle = (low + high) / 2;
    if (studentCentral(middle, degrees) < confidence) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
