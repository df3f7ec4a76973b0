import type { PlanSettings } from "../../../shared/plan/plan.ts";
import { checkPlan } from "../../../shared/schedule/check-plan.ts";
import { sessionSchedule } from "../../../shared/schedule/session-schedule.ts";
import { momentText } from "../../../shared/transfer/moment.ts";

/**
 * The moments on the printed key of a seed, in seconds from the start: the group's, or one student's
 * own. Null without a seed, or for a plan that cannot be run.
 */
export function keyOf(
  plan: PlanSettings,
  seed: string,
  studentId: string | null,
): readonly number[] | null {
  if (seed === "" || checkPlan(plan).length > 0) return null;
  return sessionSchedule(plan, seed, studentId === null ? {} : { studentId }).cues;
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
