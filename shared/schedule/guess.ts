import type { PlanSettings } from "../plan/plan.ts";
import { bestCatch, learnedCatch, type WaitingState } from "./best-catch.ts";
import { blockGain } from "./block-guess.ts";
import { chanceOfAtLeast } from "./cue-count.ts";
import type { IntervalLaw } from "./interval-law.ts";
import { ageSteps, alertShare, blurred, listenerEdges } from "./listener.ts";
import { planLaw } from "./plan-law.ts";
import { sessionSchedule } from "./session-schedule.ts";
import { statesOfLaw, statesOfWaits, type Wait, waitsBetween } from "./waits.ts";

/** From these gains on a plan is called guessable, then predictable. Our own choice, no source. */
export const verdictBounds = { canBeGuessed: 0.1, predictable: 0.4 } as const;

const guessVerdicts = ["hardToGuess", "canBeGuessed", "predictable"] as const;
export type GuessVerdict = (typeof guessVerdicts)[number];

/** One bar of the chart: how likely a cue is at this time since the last. */
export interface HazardPoint {
  readonly fromSeconds: number;
  readonly toSeconds: number;
  /** Cues per minute of waiting at this age; level when waiting teaches nothing. */
  readonly cuesPerMinute: number;
  /** Share of the law's intervals that are longer than `fromSeconds`. */
  readonly reached: number;
}

/** What a listener who knows the plan could guess. */
export interface Guess {
  /** `simulated` when the fewest-cues floor can change the schedule, `exact` otherwise. */
  readonly method: "exact" | "simulated";
  /** Share of cues caught by the best quarter of the time, chosen by time since the last cue. */
  readonly caughtShare: number;
  /** `caughtShare` less the quarter that chance would catch; 0 to 0.75. */
  readonly beatsChanceBy: number;
  /**
   * The same gain in the last minutes (two means) for a listener who watches the clock, counts the cues
   * and knows the floor. 0 when the floor cannot change the schedule.
   */
  readonly floorGivesAway: number;
  /**
   * The same gain for a listener who knows the twelve waits of the balanced law and remembers which of a
   * block have come. 0 under the other laws, whose waits tell nothing of the next.
   */
  readonly blockGivesAway: number;
  /** From the greatest of the three gains. */
  readonly verdict: GuessVerdict;
  readonly hazard: readonly HazardPoint[];
}

/** Sessions to learn from, and as many others to be judged by. */
const simulatedSessions = 2000;
/** A free draw that meets the floor this often is as good as one without a floor. */
const floorNeverBites = 0.999;

/**
 * What a listener could guess under this plan.
 *
 * "Best guess beats chance by ..." means: picture a child who works only a quarter of the time and
 * chooses that quarter as cleverly as the plan allows, by how long ago the last cue was, judged without
 * a clock. Under cues that nobody can foresee, a quarter of the cues would find the child at work. Under
 * this plan the share is `caughtShare`; the difference, in points of on-task rate that cleverness could
 * fake, is `beatsChanceBy`. It is 0 for the exponential law without a shortest gap, about 0.05 with a gap
 * of a sixth of the mean, a quarter and more for uniform plans, and near 0.75 for fixed intervals.
 *
 * Under the balanced law that is a listener who forgets; `blockGivesAway` is what memory adds.
 *
 * Computed from the law's survival function; when the fewest-cues floor can change the schedule, from
 * 4000 schedules with fixed seeds, so the same plan always gets the same answer: what a listener learns
 * from one half is judged by the other, and the other way round.
 *
 * Example: guess(firstPlan).verdict // "hardToGuess"
 *
 * @throws RangeError for a plan that `checkPlan` refuses.
 */
export function guess(plan: PlanSettings): Guess {
  const law = planLaw(plan);
  const floorBites = chanceOfAtLeast(plan, plan.fewestCues) < floorNeverBites;
  const halves = floorBites ? simulatedHalves(plan) : [];
  const waits = halves.map((half) => half.flatMap((cues) => waitsBetween(cues, plan)));
  const hasFewWaits = plan.law === "balanced" || plan.law === "fixed";

  const caughtShare = floorBites ? caughtInHalves(waits, hasFewWaits) : caughtByLaw(hasFewWaits);
  const beatsChanceBy = Math.max(0, caughtShare - alertShare);
  const floorGivesAway = floorBites ? gainFromCounting(plan, halves) : 0;
  const blockGivesAway = plan.law === "balanced" ? blockGain(plan) : 0;
  const all = waits.flat();
  return {
    method: floorBites ? "simulated" : "exact",
    caughtShare,
    beatsChanceBy,
    floorGivesAway,
    blockGivesAway,
    verdict: verdictOf(Math.max(beatsChanceBy, floorGivesAway, blockGivesAway)),
    hazard: hazardPoints(law, (edges) =>
      floorBites ? statesOfWaits(all, edges) : statesOfLaw(law, edges),
    ),
  };

  function caughtByLaw(fewWaits: boolean): number {
    const step = fewWaits ? ageSteps.fewWaits : ageSteps.usual;
    return bestCatch(blurred(statesOfLaw(law, listenerEdges(law, step)), step), alertShare);
  }

  function caughtInHalves(each: readonly (readonly Wait[])[], fewWaits: boolean): number {
    const step = fewWaits ? ageSteps.counted : ageSteps.usual;
    const edges = listenerEdges(law, step);
    return crossed(each.map((half) => blurred(statesOfWaits(half, edges), step)));
  }
}

/** Mean share caught by those who learned from one half and were judged by the other. */
function crossed([one = [], other = []]: readonly (readonly WaitingState[])[]): number {
  return (learnedCatch(one, other, alertShare) + learnedCatch(other, one, alertShare)) / 2;
}

type StatesBetween = (edges: readonly number[]) => WaitingState[];
type Schedules = readonly (readonly number[])[];

function simulatedHalves(plan: PlanSettings): readonly [Schedules, Schedules] {
  const half = (name: string) =>
    Array.from(
      { length: simulatedSessions },
      (_, session) => sessionSchedule(plan, `${name}/${session}`).cues,
    );
  return [half("guess"), half("judge")];
}

function verdictOf(gain: number): GuessVerdict {
  if (gain >= verdictBounds.predictable) return "predictable";
  return gain >= verdictBounds.canBeGuessed ? "canBeGuessed" : "hardToGuess";
}

const barsPerMean = 10;
const leastReached = 0.05;

function hazardPoints(law: IntervalLaw, statesBetween: StatesBetween): HazardPoint[] {
  const width = law.meanSeconds / barsPerMean;
  // Five means hold over 95 % of the waits of every law.
  const bars = Math.ceil(Math.min(law.longestSeconds / width, 5 * barsPerMean) + 1e-9);
  const edges = Array.from({ length: bars + 1 }, (_, index) => index * width);
  const states = statesBetween(edges);
  return states
    .map((state, index) => ({
      fromSeconds: index * width,
      toSeconds: (index + 1) * width,
      cuesPerMinute: (60 * state.cues) / state.time,
      reached: law.survival(index * width),
    }))
    .filter((point, index) => point.reached >= leastReached && (states[index]?.time ?? 0) > 0);
}

const clockBins = 8;

/** Gain over chance in the last two means, by time left and number of cues still missing. */
function gainFromCounting(plan: PlanSettings, halves: readonly Schedules[]): number {
  const counted = halves.map((half) => clockStates(plan, half));
  const keys = [...new Set(counted.flatMap((states) => [...states.keys()]))];
  const aligned = counted.map((states) =>
    keys.map((key) => states.get(key) ?? { cues: 0, time: 0 }),
  );
  return Math.max(0, crossed(aligned) - alertShare);
}

/** Cues and seconds lived in each state of the last two means: time left and cues still missing. */
function clockStates(plan: PlanSettings, schedules: Schedules): Map<string, WaitingState> {
  const end = plan.lengthSeconds - plan.endMarginSeconds;
  const start = Math.max(plan.leadInSeconds, end - 2 * plan.meanSeconds);
  const width = (end - start) / clockBins;
  const states = new Map<string, { cues: number; time: number }>();
  const stateAt = (bin: number, missing: number) => {
    const key = `${bin} ${missing}`;
    const state = states.get(key) ?? { cues: 0, time: 0 };
    states.set(key, state);
    return state;
  };
  for (const cues of schedules) {
    for (let bin = 0; bin < clockBins; bin++) {
      const binEnd = start + (bin + 1) * width;
      let from = start + bin * width;
      let count = cues.filter((cue) => cue <= from).length;
      for (const cue of cues.filter((time) => time > from && time <= binEnd)) {
        const state = stateAt(bin, Math.max(0, plan.fewestCues - count));
        state.cues += 1;
        state.time += cue - from;
        from = cue;
        count += 1;
      }
      stateAt(bin, Math.max(0, plan.fewestCues - count)).time += binEnd - from;
    }
  }
  return states;
}
