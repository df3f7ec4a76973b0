import { mostCues } from "../plan/most-cues.ts";
import type { LawName } from "../plan/plan.ts";
import { normalCdf } from "../statistics/normal.ts";
import { balancedBlockSize, balancedTerms } from "./balanced.ts";
import type { IntervalLaw, LawSettings } from "./interval-law.ts";
import { planLaw } from "./plan-law.ts";

/** What the number of cues depends on. `fewestCues` is not among them: this is one draw, unconditioned. */
export interface CountSettings extends LawSettings {
  readonly law: LawName;
  readonly lengthSeconds: number;
  readonly leadInSeconds: number;
  readonly endMarginSeconds: number;
}

/**
 * Seconds of the session in which cues may come; negative when lead-in and end margin leave none.
 *
 * Example: roomForCues(firstPlan) // 1200
 */
export function roomForCues(plan: CountSettings): number {
  return plan.lengthSeconds - plan.leadInSeconds - plan.endMarginSeconds;
}

/**
 * The chance, 0 to 1, that one draw of the plan's schedule has at least `count` cues: that `count`
 * intervals fit into the room for cues.
 *
 * Exact for fixed (counting), exponential without a longest gap (Poisson tail) and balanced (every choice
 * from a block, counted). Uniform and cut exponential: the law is laid on a grid of 800 steps and folded
 * with itself, beyond 40 intervals summed by Edgeworth's series; within 0.001 of the truth.
 *
 * Example: chanceOfAtLeast(firstPlan, 0) // 1
 *
 * @throws RangeError when the law cannot have these settings.
 */
export function chanceOfAtLeast(plan: CountSettings, count: number): number {
  const room = roomForCues(plan);
  if (count <= 0) return 1;
  if (room <= 0) return 0;
  const law = planLaw(plan);
  // A hair of slack, so that intervals which fill the room exactly count as fitting.
  const slack = 1e-9 * room;
  if (count * law.longestSeconds <= room + slack) return 1;
  if (count * law.shortestSeconds >= room + slack) return 0;
  if (count === 1) return 1 - law.survival(room);
  if (plan.law === "balanced") return chanceFromBlocks(plan, count, room + slack);
  if (plan.law === "exponential" && plan.longestGapSeconds === null) {
    const { meanSeconds, shortestGapSeconds } = plan;
    return poissonAtLeast(
      count,
      (room - count * shortestGapSeconds) / (meanSeconds - shortestGapSeconds),
    );
  }
  return chanceOfSum(law, count, room);
}

/**
 * The greatest number of cues, up to `mostCues`, that one draw has with a chance of at least `chance`. 0 when
 * even one cue is less likely than that.
 *
 * Example: greatestCountWithChance(firstPlan, 0.5) // 10
 *
 * @throws RangeError unless `chance` is above 0; at 0 there would be no greatest number.
 */
export function greatestCountWithChance(plan: CountSettings, chance: number): number {
  if (!(chance > 0)) throw new RangeError(`The chance must be above 0; got ${chance}.`);
  const reached = (count: number) => count <= mostCues && chanceOfAtLeast(plan, count) >= chance;
  let tooMany = 1;
  while (reached(tooMany)) tooMany *= 2;
  let enough = Math.floor(tooMany / 2);
  while (tooMany - enough > 1) {
    const middle = Math.floor((enough + tooMany) / 2);
    if (reached(middle)) enough = middle;
    else tooMany = middle;
  }
  return enough;
}

/** P(Poisson(mean) >= count), added up from logarithms so that large counts do not overflow. */
function poissonAtLeast(count: number, mean: number): number {
  if (mean <= 0) return 0;
  let logTerm = -mean;
  let below = 0;
  for (let k = 0; k < count; k++) {
    below += Math.exp(logTerm);
    logTerm += Math.log(mean / (k + 1));
  }
  return Math.max(0, 1 - below);
}

/**
 * Whole blocks always fit the same way; what is left is a choice of some of a block's intervals, each
 * choice equally likely.
 */
function chanceFromBlocks(plan: CountSettings, count: number, room: number): number {
  const blockSeconds = balancedBlockSize * plan.meanSeconds;
  const wholeBlocks = Math.floor(room / blockSeconds);
  const wanted = count - wholeBlocks * balancedBlockSize;
  if (wanted <= 0) return 1;
  if (wanted >= balancedBlockSize) return 0;
  const left = room - wholeBlocks * blockSeconds;
  const terms = balancedTerms(plan);
  let choices = 0;
  let fitting = 0;
  const choose = (from: number, missing: number, sum: number): void => {
    if (missing === 0) {
      choices += 1;
      if (sum <= left) fitting += 1;
      return;
    }
    for (let index = from; index <= terms.length - missing; index++) {
      choose(index + 1, missing - 1, sum + (terms[index] ?? 0));
    }
  };
  choose(0, wanted, 0);
  return fitting / choices;
}

/** Up to so many intervals are folded on the grid; beyond, the sum is close enough to normal. */
const mostFolded = 40;
const gridSteps = 800;

/**
 * The chance that `count` independent intervals of a cut-off law fit into `room`. The shortest gap is
 * taken out first: only what goes beyond it varies, however narrow that is.
 */
function chanceOfSum(law: IntervalLaw, count: number, room: number): number {
  const excess: Excess = {
    mean: law.meanSeconds - law.shortestSeconds,
    longest: law.longestSeconds - law.shortestSeconds,
    survival: (seconds) => law.survival(law.shortestSeconds + seconds),
  };
  const left = room - count * law.shortestSeconds;
  // Past ten standard deviations (none is above its mean here) nothing is left, and a grid would be coarse.
  if (left > excess.mean * (count + 10 * Math.sqrt(count))) return 1;
  const chance =
    count > mostFolded ? chanceByMoments(excess, count, left) : chanceOnGrid(excess, count, left);
  return Math.min(1, Math.max(0, chance));
}

/** What an interval has beyond the shortest gap. */
interface Excess {
  readonly mean: number;
  readonly longest: number;
  readonly survival: (seconds: number) => number;
}

function chanceOnGrid(excess: Excess, count: number, room: number): number {
  let power = excessOnGrid(excess, room / gridSteps);
  let sum: Float64Array | null = null;
  for (let left = count; left > 0; left = Math.floor(left / 2)) {
    if (left % 2 === 1) sum = sum === null ? power : folded(sum, power);
    if (left > 1) power = folded(power, power);
  }
  if (sum === null) return 1;
  const edge = sum[gridSteps] ?? 0;
  // The point on the edge of the room stands for sums on both sides of it.
  const inside = sum.reduce((total, mass) => total + mass, 0) - edge / 2;
  // Sharing mass between two points widens each interval by a sixth of a squared step; the slope of the
  // density at the edge takes that out again.
  return inside - (count / 12) * (edge - (sum[gridSteps - 1] ?? 0));
}

/** Share of excesses at 0, 1, 2 ... steps; mass between two points is shared so that its mean is kept. */
function excessOnGrid({ survival }: Excess, step: number): Float64Array {
  // area[i]: integral of the survival function over step i, in steps (Simpson).
  const area = Float64Array.from({ length: gridSteps + 1 }, (_, index) => {
    const at = (share: number) => survival((index + share) * step);
    return (at(0) + 4 * at(0.25) + 2 * at(0.5) + 4 * at(0.75) + at(1)) / 12;
  });
  return area.map((now, index) => (index === 0 ? 1 : (area[index - 1] ?? 0)) - now);
}

function folded(left: Float64Array, right: Float64Array): Float64Array {
  const sum = new Float64Array(gridSteps + 1);
  for (let i = 0; i <= gridSteps; i++) {
    const weight = left[i] ?? 0;
    if (weight === 0) continue;
    for (let j = 0; i + j <= gridSteps; j++) {
      sum[i + j] = (sum[i + j] ?? 0) + weight * (right[j] ?? 0);
    }
  }
  return sum;
}

/** The normal distribution corrected for skewness and kurtosis (Edgeworth's series to order 1 / count). */
function chanceByMoments(excess: Excess, count: number, room: number): number {
  const { mean } = excess;
  const [second, third, fourth] = [2, 3, 4].map((power) => rawMoment(excess, power));
  if (second === undefined || third === undefined || fourth === undefined) return 0;
  const variance = second - mean ** 2;
  const skewness = (third - 3 * mean * second + 2 * mean ** 3) / variance ** 1.5;
  const fourthCentral = fourth - 4 * mean * third + 6 * mean ** 2 * second - 3 * mean ** 4;
  const kurtosis = fourthCentral / variance ** 2 - 3;

  const z = (room - count * mean) / Math.sqrt(count * variance);
  const correction =
    (skewness * (z ** 2 - 1)) / (6 * Math.sqrt(count)) +
    (kurtosis * (z ** 3 - 3 * z)) / (24 * count) +
    (skewness ** 2 * (z ** 5 - 10 * z ** 3 + 15 * z)) / (72 * count);
  const density = Math.exp(-(z ** 2) / 2) / Math.sqrt(2 * Math.PI);
  return normalCdf(z) - density * correction;
}

const momentSteps = 2000;

/** Mean of the excess to a power: the integral of power x^(power-1) S(x), by midpoints. */
function rawMoment({ mean, longest, survival }: Excess, power: number): number {
  const step = Math.min(longest, 50 * mean) / momentSteps;
  let sum = 0;
  for (let index = 0; index < momentSteps; index++) {
    const x = (index + 0.5) * step;
    sum += x ** (power - 1) * survival(x);
  }
  return power * sum * step;
}
