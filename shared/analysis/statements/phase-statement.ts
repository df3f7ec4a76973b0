import type { SessionCount } from "../../record/session-count.ts";
import { type Interval, notEnough, type Result } from "../../statistics/result.ts";
import { clearConfidence, probableConfidence } from "../evidence.ts";
import { phasePoints } from "../phases/points-standard.ts";
import type { Wanted } from "../phases/wanted.ts";
import { ratePoints } from "./points.ts";
import { type Stated, stateChange } from "./statement.ts";
import { fitStretches, stretchDifference, stretchInterval } from "./stretches.ts";

/** Whether it did: shown, shown to have gone the other way or not to have held, or neither. */
export type Outcome = "as-wanted" | "against" | "cannot-tell";

/** A rate that fell by less than this, in percentage points, has held. Common practice, no source. */
const heldMargin = 10;

/** Two one-sided tests at 5 % are a 90 % interval. */
const heldConfidence = 0.9;

export interface PhaseStatement extends Stated {
  /** Mean rate of the later phase less that of the earlier, percentage points, as are all intervals. */
  readonly points: number;
  readonly wanted: Wanted;
  readonly outcome: Outcome;
  readonly sessions: readonly [from: number, to: number];
  /** The two rates, 0 to 1, with their 95 % intervals. */
  readonly rates: readonly [from: PhaseRateStatement, to: PhaseRateStatement];
}

export interface PhaseRateStatement {
  readonly rate: number;
  readonly interval: Interval;
}

/**
 * Two phases of one record compared, from three sessions in each.
 *
 * For `held`, an equivalence test with a margin of `heldMargin`: held when the 90 % interval of the change
 * ends above minus the margin, not held when the fall is clear and that is not so. A rise beyond the margin
 * has held too. For `up` and `down` the outcome is what is clear.
 *
 * Source: Schuirmann DJ (1987), Journal of Pharmacokinetics and Biopharmaceutics 15:657-680, one-sided where
 * a rise is welcome; the fit, see `fitStretches`.
 *
 * @param from sessions of the earlier phase, oldest first
 * @param to sessions of the later phase, oldest first
 *
 * Example: phaseStatement([], [], "up") // not-enough, "few-sessions"
 */
export function phaseStatement(
  from: readonly SessionCount[],
  to: readonly SessionCount[],
  wanted: Wanted,
): Result<PhaseStatement> {
  const [before, after] = [ratePoints(from), ratePoints(to)];
  const have = Math.min(before.length, after.length);
  if (have < phasePoints.fewest) return notEnough("few-sessions", have, phasePoints.fewest);
  const [earlier, later] = fitStretches([before, after]).rates;
  if (earlier === undefined || later === undefined) return notEnough("few-sessions", 0, 3);
  const differenceAt = (confidence: number) => stretchDifference(earlier, later, confidence);
  const intervalAt = (confidence: number) => inPoints(differenceAt(confidence).interval);
  const { difference } = differenceAt(clearConfidence);
  const stated = stateChange(
    difference,
    intervalAt(clearConfidence),
    intervalAt(probableConfidence),
  );
  const rateOf = (rate: typeof earlier): PhaseRateStatement => ({
    rate: rate.on / rate.marks,
    interval: stretchInterval(rate, clearConfidence),
  });
  return {
    kind: "enough",
    points: difference * 100 + 0,
    ...stated,
    wanted,
    outcome:
      wanted === "held" ? heldOutcome(stated, intervalAt(heldConfidence)) : moved(stated, wanted),
    sessions: [before.length, after.length],
    rates: [rateOf(earlier), rateOf(later)],
  };
}

/** What a change shows of the wish that the rate holds, from its statement and its 90 % interval in points. */
export function heldOutcome(stated: Stated, ninety: Interval): Outcome {
  if (ninety.lower > -heldMargin) return "as-wanted";
  return stated.evidence === "clear" && stated.direction === "down" ? "against" : "cannot-tell";
}

/** What a change shows of the wish that the rate rises, or falls. */
export function moved({ evidence, direction }: Stated, wanted: "up" | "down"): Outcome {
  if (evidence !== "clear") return "cannot-tell";
  return direction === wanted ? "as-wanted" : "against";
}

const inPoints = ({ lower, upper }: Interval): Interval => ({
  lower: lower * 100,
  upper: upper * 100,
});
