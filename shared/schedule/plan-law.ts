import type { LawName } from "../plan/plan.ts";
import { balanced } from "./balanced.ts";
import { exponential } from "./exponential.ts";
import { fixed } from "./fixed.ts";
import type { IntervalLaw, LawSettings } from "./interval-law.ts";
import { uniform } from "./uniform.ts";

const laws: Record<LawName, (settings: LawSettings) => IntervalLaw> = {
  exponential,
  uniform,
  balanced,
  fixed,
};

/**
 * The interval law of a plan.
 *
 * Example: planLaw(firstPlan).name // "exponential"
 *
 * @throws RangeError when the law cannot have these settings.
 */
export function planLaw(plan: LawSettings & { readonly law: LawName }): IntervalLaw {
  return laws[plan.law](plan);
}
