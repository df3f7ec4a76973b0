import type { GroupCounts } from "../../../shared/api/analysis.ts";
import type { DayOff } from "../../../shared/api/program.ts";
import type { SessionListItem } from "../../../shared/api/sessions.ts";

/** After so many sessions in a row without a look at any record, one is owed; common practice, no source. */
export const sessionsWithoutCheck = 3;

type Listed = Pick<
  SessionListItem,
  "kind" | "status" | "plan" | "cuesDelivered" | "studentsRecorded" | "studentsPresent"
>;

/** Whether the paper cards of a session are still to be typed in. */
export function awaitsCards(session: Listed): boolean {
  const { kind, status, plan, cuesDelivered, studentsRecorded, studentsPresent } = session;
  return (
    kind === "seatwork" &&
    status === "ended" &&
    plan.recording === "paper" &&
    cuesDelivered > 0 &&
    studentsRecorded < studentsPresent
  );
}

/** Whether the last sessions in which students recorded themselves went by without a spot check that saw anything. */
export function owesCheck({ sessions, checks }: Pick<GroupCounts, "sessions" | "checks">): boolean {
  const lately = sessions.filter(({ kind }) => kind === "seatwork").slice(-sessionsWithoutCheck);
  if (lately.length < sessionsWithoutCheck) return false;
  const ids = new Set(lately.map(({ id }) => id));
  return !checks.some(({ sessionId, seen }) => ids.has(sessionId) && seen !== "unseen");
}

/** The day off that a school-local day YYYY-MM-DD belongs to, or null. */
export function dayOffOn(daysOff: readonly DayOff[], day: string): DayOff | null {
  return daysOff.find(({ firstDay, lastDay }) => firstDay <= day && day <= lastDay) ?? null;
}
