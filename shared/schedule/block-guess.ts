import { balancedTerms } from "./balanced.ts";
import { bestCatch } from "./best-catch.ts";
import { type CountSettings, chanceOfAtLeast, roomForCues } from "./cue-count.ts";
import { ageSteps, alertShare, blurred, listenerEdges } from "./listener.ts";
import { planLaw } from "./plan-law.ts";
import { statesOfWaits } from "./waits.ts";

/**
 * The gain over chance, 0 to 0.75, of a listener under the balanced law who knows the intervals of a block
 * and remembers which have come: alert a quarter of the time, chosen by what is left of the block and by
 * time since the last cue, felt without a clock.
 *
 * Every place in a block counts as often as this plan's sessions get there; late places, where little is
 * left to come, are rarely reached in short sessions. That a session which got far had short waits so far
 * is not counted in.
 *
 * Example: blockGain({ ...firstPlan, law: "balanced" }) > 0 // true
 *
 * @throws RangeError when the law cannot have these settings.
 */
export function blockGain(plan: CountSettings): number {
  const terms = balancedTerms(plan);
  const edges = listenerEdges(planLaw(plan), ageSteps.blocks);
  return blockCatch(terms, placesReached(plan, terms), edges, ageSteps.blocks) - alertShare;
}

/** How often a session gets to the cue at each place of a block, first to last. */
function placesReached(plan: CountSettings, terms: readonly number[]): number[] {
  const block = terms.reduce((sum, term) => sum + term, 0);
  const whole = Math.floor(roomForCues(plan) / block + 1e-9);
  return terms.map((_, place) => whole + chanceOfAtLeast(plan, whole * terms.length + place + 1));
}

/** Rates of cues that differ by less than half a percent are taken together: sorting them all is slow. */
const binsPerDoubling = 140;
/** Doublings between the lowest and the highest rate told apart, about one cue per mean interval. */
const doublings = { below: 20, above: 12 } as const;

/**
 * The share of cues caught. Every set of intervals that can be left at a place is equally likely there;
 * what is felt while waiting for a set is the mean of what its intervals feel like, so each interval is
 * blurred once and the sets, over four thousand, only add up.
 *
 * @param terms the intervals of a block, in seconds
 * @param reached how often a cue comes at each place of a block
 * @param edges ages to tell apart, ascending from 0
 * @param step how many times the one before each edge is, as in `listenerEdges`
 */
export function blockCatch(
  terms: readonly number[],
  reached: readonly number[],
  edges: readonly number[],
  step: number = ageSteps.usual,
): number {
  const felt = terms.map((seconds) =>
    blurred(statesOfWaits([{ seconds, endedByCue: true }], edges), step),
  );
  const ages = felt[0]?.length ?? 0;
  const feltCues = felt.map((states) => Float64Array.from(states, ({ cues }) => cues));
  const feltTime = felt.map((states) => Float64Array.from(states, ({ time }) => time));
  const mean = terms.reduce((sum, term) => sum + term, 0) / terms.length;
  const binCount = binsPerDoubling * (doublings.below + doublings.above) + 1;
  const binCues = new Float64Array(binCount);
  const binTime = new Float64Array(binCount);
  const sets = choices(terms.length);
  // What the intervals chosen so far feel like together, by how many they are.
  const sums = Array.from({ length: terms.length + 1 }, () => ({
    cues: new Float64Array(ages),
    time: new Float64Array(ages),
  }));

  const choose = (from: number, size: number): void => {
    const now = sums[size];
    const next = sums[size + 1];
    if (size > 0 && now !== undefined) addUp(now.cues, now.time, size);
    if (now === undefined || next === undefined) return;
    for (let index = from; index < terms.length; index++) {
      addTo(next.cues, now.cues, feltCues[index]);
      addTo(next.time, now.time, feltTime[index]);
      choose(index + 1, size + 1);
    }
  };
  const addUp = (cues: Float64Array, time: Float64Array, size: number): void => {
    // Each of the sets of this size, and each of its intervals, is as likely as the others.
    const weight = (reached[terms.length - size] ?? 0) / ((sets[size] ?? 1) * size);
    if (weight === 0) return;
    for (let age = 0; age < ages; age++) {
      const [come, lived] = [cues[age] ?? 0, time[age] ?? 0];
      if (lived <= 0) continue;
      const rate = Math.log2((come * mean) / lived);
      const place = Math.round(binsPerDoubling * (rate + doublings.below));
      const bin = Math.min(binCount - 1, Math.max(0, place));
      binCues[bin] = (binCues[bin] ?? 0) + weight * come;
      binTime[bin] = (binTime[bin] ?? 0) + weight * lived;
    }
  };
  choose(0, 0);
  const states = Array.from(binCues, (cues, bin) => ({ cues, time: binTime[bin] ?? 0 }));
  return bestCatch(states, alertShare);
}

function addTo(into: Float64Array, one: Float64Array, other: Float64Array | undefined): void {
  for (let index = 0; index < into.length; index++) {
    into[index] = (one[index] ?? 0) + (other?.[index] ?? 0);
  }
}

/** How many sets of each size, 0 to `count`, there are. */
function choices(count: number): number[] {
  const row = [1];
  for (let size = 1; size <= count; size++) {
    row.push(((row[size - 1] ?? 0) * (count - size + 1)) / size);
  }
  return row;
}
