import { mannWhitney } from "../../statistics/mann-whitney.ts";
import { nap } from "../../statistics/nap.ts";
import type { Interval } from "../../statistics/result.ts";
import {
  clearConfidence,
  type Evidence,
  evidenceOfChange,
  evidenceOfP,
  probableConfidence,
  weakerEvidence,
} from "../evidence.ts";
import { phasePoints } from "./points-standard.ts";

/**
 * How firmly a difference between two phases may be worded; null where one has fewer than three points.
 *
 * Two rules, and the weaker answer counts. By the interval of NAP: clear when the 95 % interval leaves
 * out one half, probable when only the 80 % interval does. By Mann-Whitney's exact two-sided p: clear at
 * .05 or less, probable at .20 or less. The interval alone is an approximation that leaves out one half
 * even for three points against three, where chance alone separates the phases once in ten.
 *
 * Both take points as independent, which session rates rarely quite are. Values are in time order or
 * not, in any one unit. Sources: see `nap` and `mannWhitney`; the levels as in `evidenceOfChange`, the
 * fewest points as in `pointsStandard`; taking the weaker of the two is common practice, no source.
 */
export function phaseEvidence(a: readonly number[], b: readonly number[]): Evidence | null {
  if (a.length < phasePoints.fewest || b.length < phasePoints.fewest) return null;
  const wide = napFromHalf(a, b, clearConfidence);
  const narrow = napFromHalf(a, b, probableConfidence);
  const test = mannWhitney(a, b);
  if (wide === null || narrow === null || test.kind === "not-computable") return null;
  return weakerEvidence(evidenceOfChange(wide, narrow), evidenceOfP(test.p));
}

function napFromHalf(
  a: readonly number[],
  b: readonly number[],
  confidence: number,
): Interval | null {
  const found = nap(a, b, confidence);
  if (found.kind === "not-computable") return null;
  return { lower: found.interval.lower - 0.5, upper: found.interval.upper - 0.5 };
}
