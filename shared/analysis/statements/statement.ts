import { fractionalCriticalT } from "../../statistics/fractional-t.ts";
import type { Direction, Interval } from "../../statistics/result.ts";
import {
  clearConfidence,
  directionOf,
  type Evidence,
  evidenceOfChange,
  probableConfidence,
} from "../evidence.ts";

/** What may be said of a change: how large, between what, which way, and how firmly. */
export interface Stated {
  /** 95 % interval, in the unit of the number it belongs to; never of zero width. */
  readonly interval: Interval;
  /** 80 % interval, by which a change is probable. */
  readonly narrow: Interval;
  readonly direction: Direction;
  readonly evidence: Evidence;
}

/** Example: stateChange(2, { lower: 1, upper: 3 }, { lower: 1.5, upper: 2.5 }).evidence // "clear" */
export function stateChange(change: number, interval: Interval, narrow: Interval): Stated {
  return {
    interval,
    narrow,
    direction: directionOf(change),
    evidence: evidenceOfChange(interval, narrow),
  };
}

/** The same for an estimate with a standard error and Student's t. */
export function stateEstimate(estimate: number, standardError: number, degrees: number): Stated {
  const around = (confidence: number): Interval => {
    const reach = fractionalCriticalT(confidence, degrees) * standardError;
    return { lower: estimate - reach, upper: estimate + reach };
  };
  return stateChange(estimate, around(clearConfidence), around(probableConfidence));
}
