import type { PlanSettings } from "../plan/plan.ts";
import { chanceOfAtLeast, greatestCountWithChance } from "./cue-count.ts";

/**
 * The greatest number of cues to make room for, on a paper card for instance: a session of this plan has
 * more with a chance of at most 1 - `confidence` (from 0 to below 1, 0.99 unless told).
 *
 * The fewest-cues floor is taken into account: schedules with too few cues never happen, so every larger
 * number is likelier by the same factor.
 *
 * Example: mostLikelyCues(firstPlan) // 16
 *
 * @throws RangeError for a confidence outside 0 to 1 or of exactly 1, which no number could give, and for
 * a plan that `checkPlan` refuses.
 */
export function mostLikelyCues(plan: PlanSettings, confidence = 0.99): number {
  if (!(confidence >= 0 && confidence < 1)) {
    throw new RangeError(`The confidence must be from 0 to below 1; got ${confidence}.`);
  }
  const kept = chanceOfAtLeast(plan, plan.fewestCues);
  // A hair above what is allowed: a count reached with exactly that chance still fits.
  const allowed = (1 - confidence) * kept + 1e-12;
  return Math.max(plan.fewestCues, greatestCountWithChance(plan, allowed));
}
