import type { PlanSettings } from "../../../shared/plan/plan.ts";
import { checkPlan } from "../../../shared/schedule/check-plan.ts";
import { fadedPlan } from "../../../shared/schedule/fading.ts";
import { sessionSchedule } from "../../../shared/schedule/session-schedule.ts";
import { momentText } from "../../../shared/transfer/moment.ts";

/** What a printed key says of itself. */
export interface KeySaid {
  readonly seed: string;
  /** Whose own key it is; null for the group's. */
  readonly studentId: string | null;
  /** Mean interval on the key: that of the plan, or of a step of thinning. */
  readonly meanSeconds: number;
}

/**
 * The moments on the printed key of a seed, in seconds from the start: the group's, or one student's
 * own. Null without a seed, or for a plan that cannot be run.
 */
export function keyOf(
  plan: PlanSettings,
  { seed, studentId, meanSeconds }: KeySaid,
): readonly number[] | null {
  if (seed === "") return null;
  const printed = meanSeconds === plan.meanSeconds ? plan : fadedPlan(plan, meanSeconds);
  if (checkPlan(printed).length > 0) return null;
  return sessionSchedule(printed, seed, studentId === null ? {} : { studentId }).cues;
}

/**
 * The moment of a local day and time on this computer, as ISO 8601 with its offset; null when one of them
 * is missing. The offset is that of the day itself, not of today: summer time may lie between.
 *
 * @param day `YYYY-MM-DD`
 * @param time `HH:MM`
 */
export function startedAt(day: string, time: string): string | null {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(day) || !/^\d{2}:\d{2}$/.test(time)) return null;
  const at = new Date(`${day}T${time}:00`);
  const ms = at.getTime();
  return Number.isNaN(ms) ? null : momentText(ms, -at.getTimezoneOffset());
}
