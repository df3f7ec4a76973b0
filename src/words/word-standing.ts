import { fadingRule } from "../../shared/agreement/check-fading.ts";
import { type CheckStanding, stepOfPace } from "../../shared/agreement/check-step.ts";
import type { CheckPace } from "../../shared/plan/plan.ts";
import type { Voice } from "./words.ts";

/** How often checks come and on what grounds, in a sentence; a pace that the teacher chose goes first. */
export function wordStanding(
  { say, formats }: Voice,
  { every, because }: CheckStanding,
  pace: CheckPace,
): string {
  const chosen = stepOfPace[pace];
  if (chosen !== null) return say("checks.chosen", { every: chosen });
  const { sessions, compared, matching, reason } = because;
  const figures = { sessions, compared, matching };
  switch (reason) {
    case "agreement-held":
    case "thinnest":
      return say("checks.held", { every, ...figures });
    case "agreement-fell":
      return say("checks.fell", figures);
    case "could-be-always-on":
      return say("checks.could-be-always-on", figures);
    case "few-checks":
    case "few-sessions":
      return say("checks.few", {
        ...figures,
        fewest: fadingRule.fewestChecks,
        need: fadingRule.fewestSessions,
        share: formats.percent(fadingRule.agreement),
      });
  }
}
