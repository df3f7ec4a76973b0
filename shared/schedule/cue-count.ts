import type { LawName } from "../plan/plan.ts";
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

/** Seconds of the session in which cues may come; negative when lead-in and end margin leave none. */
export function roomForCues(plan: CountSettings): number {
  return plan.lengthSeconds - plan.leadInSeconds - plan.endMarginSeconds;
}

/**
 * The chance, 0 to 1, that one draw of the plan's schedule has at least `count` cues: that `count`
 * intervals fit into the room for cues.
 *
 * Exact for fixed (counting), exponential without a longest gap (Poisson tail) and balanced (every choice
 * from a block, counted). Uniform and cut exponential: the law is laid on a grid of 800 steps with its
 * mean kept and folded with itself; within 0.001 of the truth.
 *
 * Errors: RangeError when the law cannot have these settings.
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
  return chanceOnGrid(law, count, room);
}

/**
 * The greatest number of cues that one draw has with a chance of at least `chance`. 0 when even one cue
 * is less likely than that.
 */
export function greatestCountWithChance(plan: CountSettings, chance: number): number {
  const reached = (count: number) => chanceOfAtLeast(plan, count) >= chance;
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

const gridSteps = 800;

function chanceOnGrid(law: IntervalLaw, count: number, room: number): number {
  const step = room / gridSteps;
  let power = gapsOnGrid(law, step);
  let sum: Float64Array | null = null;
  for (let left = count; left > 0; left = Math.floor(left / 2)) {
    if (left % 2 === 1) sum = sum === null ? power : folded(sum, power);
    if (left > 1) power = folded(power, power);
  }
  if (sum === null) return 1;
  // The point on the edge of the room stands for sums on both sides of it.
  const inside = sum.reduce((total, mass) => total + mass, 0) - (sum[gridSteps] ?? 0) / 2;
  return Math.min(1, Math.max(0, inside));
}

/**
 * Share of intervals at 0, 1, 2 ... steps. The mass between two points is split between them so that its
 * mean is kept, the survival function taken as straight within a quarter step.
 */
function gapsOnGrid(law: IntervalLaw, step: number): Float64Array {
  const area = new Float64Array(gridSteps + 3);
  // area[i]: integral of the survival function over step i, in steps (Simpson).
  for (let index = 0; index <= gridSteps + 1; index++) {
    const at = (share: number) => law.survival((index + share) * step);
    area[index] = (at(0) + 4 * at(0.25) + 2 * at(0.5) + 4 * at(0.75) + at(1)) / 12;
  }
  const mass = new Float64Array(gridSteps + 1);
  mass[0] = 1 - (area[0] ?? 0);
  for (let index = 1; index <= gridSteps; index++) {
    mass[index] = (area[index - 1] ?? 0) - (area[index] ?? 0);
  }
  return mass;
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
