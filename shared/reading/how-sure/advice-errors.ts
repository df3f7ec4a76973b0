import { type AdviceDecision, type AdviceInputs, advise } from "../../advice/advice.ts";
import { chanceRule } from "../../advice/goal-chance.ts";
import { summariseTable } from "../../agreement/agreement-summary.ts";
import { matchReading } from "../../agreement/match-reading.ts";
import { twoByTwoOf } from "../../agreement/two-by-two.ts";
import { simulateRecord } from "../../analysis/calibration/simulate-record.ts";
import { randomStream } from "../../schedule/stream.ts";
import type { OwnPlan } from "./how-sure-plan.ts";

/** How often a move is advised to a student for whom it would be wrong, as shares of such students. */
export interface AdviceErrors {
  /** Thinned at some time within ten sessions, ten points under the goal. */
  readonly thinned: number;
  /** A step back at some time within ten sessions, ten points above the goal. */
  readonly steppedBack: number;
}

const sessions = 10;
const away = 0.1;

/** At a step with denser ones before it and thinner ones after it; the checks allow what the rate does. */
const usual: Omit<AdviceInputs, "sessions" | "goal"> = {
  ladder: { cueSteps: 3 },
  place: 1,
  daysHere: 3,
  source: "self",
  agreement: summariseTable(twoByTwoOf(24, 1, 1, 14)),
  sessionsSinceCheck: 0,
  pointsPaid: true,
  baseline: { self: null, observer: null },
  work: null,
};

/**
 * How often the advice moves a steady student the wrong way, by simulation from a fixed seed. The goal lies
 * ten points from the plan's rate, or as near to that as a goal of 5 to 95 % allows; the student then works
 * ten points from that goal.
 *
 * @param r correlation of neighbouring sessions
 *
 * Example: adviceErrors({ cues: 10, rate: 0.6 }, 0.2, 500).thinned // about .06
 */
export function adviceErrors(
  plan: Pick<OwnPlan, "cues" | "rate">,
  r: number,
  replicates: number,
): AdviceErrors {
  const highest = Math.min(chanceRule.highestGoal, plan.rate + away);
  const lowest = Math.max(1 - chanceRule.highestGoal, plan.rate - away);
  const advised = (wrong: AdviceDecision, goal: number, rate: number) => {
    const draw = randomStream("how sure", `${wrong} ${plan.cues} ${plan.rate} ${r}`);
    const happens = () => {
      const record = simulateRecord({ sessions, cues: plan.cues, r, rate: () => rate }, draw);
      return record.some(
        (_, at) => advise({ ...usual, goal, sessions: record.slice(0, at + 1) }).decision === wrong,
      );
    };
    return shareOf(replicates, happens);
  };
  return {
    thinned: advised("thin-cues", highest, highest - away),
    steppedBack: advised("step-back", lowest, lowest + away),
  };
}

/** What is said of the checks of a student who says "on" at every cue, as shares of such students. */
export interface MatchErrors {
  readonly checks: number;
  readonly good: number;
  readonly thinned: number;
}

const checks = 20;

/**
 * How often twenty checks of a student who says "on" at every cue, and works at the rate, read as a good
 * match, and how often they let checks become rarer.
 *
 * Example: matchErrors(0.8, 500).good // 0
 */
export function matchErrors(rate: number, replicates: number): MatchErrors {
  const draw = randomStream("how sure", `always on ${rate}`);
  const read = () => {
    let on = 0;
    for (let check = 0; check < checks; check += 1) on += draw() < rate ? 1 : 0;
    return matchReading(twoByTwoOf(on, checks - on, 0, 0));
  };
  const readings = Array.from({ length: replicates }, read);
  return {
    checks,
    good: readings.filter(({ match }) => match === "good").length / replicates,
    thinned: readings.filter(({ next }) => next === "let-checks-thin").length / replicates,
  };
}

const shareOf = (replicates: number, happens: () => boolean): number =>
  Array.from({ length: replicates }, happens).filter(Boolean).length / replicates;
