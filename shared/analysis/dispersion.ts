import type { Counts } from "../record/session-count.ts";
import { marked } from "./rate.ts";

export interface Dispersion {
  /** How many times as large the variance is as for independent marks. Never below 1. */
  readonly designEffect: number;
  /** Sessions beyond the first of each stretch: what the estimate rests on. 0: it is assumed to be 1. */
  readonly degrees: number;
}

/**
 * Design effect of sessions: marks within a session are alike, so a pooled rate is less certain than
 * the number of its marks suggests.
 *
 * `stretches` are lists of sessions with one underlying rate each (the weeks of a student, or one
 * phase). For a single stretch of k sessions with x of n marks on task and pooled rate p, this is the
 * ratio estimator of Rao and Scott: k/(k-1) * sum (x - n p)^2, divided by N p (1-p), N = sum n. With
 * several stretches the numerators and the denominators are summed: one common design effect, which
 * is steadier than one for each. Stretches of a single session, or with a rate of exactly 0 or 1,
 * carry no information about it and are left out. Values below 1 are raised to 1.
 *
 * Source: Rao JNK, Scott AJ (1992), "A simple method for the analysis of clustered binary data",
 * Biometrics 48:577-585.
 */
export function designEffect(stretches: readonly (readonly Counts[])[]): Dispersion {
  let found = 0;
  let expected = 0;
  let degrees = 0;
  for (const stretch of stretches) {
    const scatter = scatterWithin(stretch);
    if (scatter === null) continue;
    found += scatter.found;
    expected += scatter.expected;
    degrees += scatter.degrees;
  }
  if (degrees === 0) return { designEffect: 1, degrees: 0 };
  return { designEffect: Math.max(1, found / expected), degrees };
}

function scatterWithin(stretch: readonly Counts[]) {
  let sessions = 0;
  let on = 0;
  let total = 0;
  for (const counts of stretch) {
    if (marked(counts) === 0) continue;
    sessions += 1;
    on += counts.on;
    total += marked(counts);
  }
  if (sessions < 2 || on === 0 || on === total) return null;
  const rate = on / total;
  let squares = 0;
  for (const counts of stretch) squares += (counts.on - marked(counts) * rate) ** 2;
  return {
    found: (sessions / (sessions - 1)) * squares,
    expected: total * rate * (1 - rate),
    degrees: sessions - 1,
  };
}
