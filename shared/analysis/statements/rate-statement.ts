import type { SessionCount } from "../../record/session-count.ts";
import { type Interval, notEnough, type Result } from "../../statistics/result.ts";
import { contrastWorth } from "../../statistics/serial-least-squares.ts";
import { clearConfidence } from "../evidence.ts";
import { ratePoints } from "./points.ts";
import { fitStretches, stretchInterval } from "./stretches.ts";

/** A rate over several sessions, and how far it may be from the student's usual one. */
export interface RateStatement {
  readonly rate: number;
  /** 95 %. */
  readonly interval: Interval;
  readonly sessions: number;
  readonly marks: number;
}

/** Fewer sessions than this: read each session for itself. */
const fewestForRate = 3;

/**
 * The rate of all marks of one source, with scatter and likeness of neighbours measured within phases, so that
 * a jump between two of them does not count as scatter.
 *
 * @param stretches the sessions phase by phase, oldest first; those without a phase as stretches of their own
 *
 * Source: see `fitStretches`. Example: rateStatement([]) // not-enough, "few-sessions"
 */
export function rateStatement(
  stretches: readonly (readonly SessionCount[])[],
): Result<RateStatement> {
  const held = stretches.map(ratePoints).filter((points) => points.length > 0);
  const all = held.flat();
  if (all.length < Math.max(fewestForRate, held.length + 1)) {
    return notEnough("few-sessions", all.length, Math.max(fewestForRate, held.length + 1));
  }
  const { fit } = fitStretches(held);
  let [on, marks] = [0, 0];
  for (const point of all) {
    on += point.on;
    marks += point.marks;
  }
  const contrast = Float64Array.from(all, (point) => Math.sqrt(point.marks / marks));
  const { inflation, degrees } = contrastWorth(contrast, fit);
  const designEffect = Math.max(1, fit.phi) * inflation;
  const rate = { on, marks, sessions: all.length, designEffect, degrees };
  return {
    kind: "enough",
    rate: on / marks,
    interval: stretchInterval(rate, clearConfidence),
    sessions: all.length,
    marks,
  };
}
