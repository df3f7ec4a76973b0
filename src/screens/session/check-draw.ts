import { stepOfPace } from "../../../shared/agreement/check-step.ts";
import { ownCheckDraw } from "../../../shared/agreement/own-check-draw.ts";
import { type SpotCheckMoment, spotCheckDraw } from "../../../shared/agreement/spot-check-draw.ts";
import type { Session } from "../../../shared/api/sessions.ts";
import { dayNumber, mondayOf } from "../../../shared/calendar/calendar.ts";
import { checkedClosely, groupStanding } from "../../../shared/reading/check-standing.ts";
import type { GroupCounts } from "../../../shared/record/group-counts.ts";
import { type OwnCue, ownSchedule } from "../../../shared/schedule/own-schedule.ts";
import { sessionSchedule } from "../../../shared/schedule/session-schedule.ts";
import type { SessionState } from "../../../shared/session/state.ts";

/** What the record says of earlier checks. */
type Earlier = Pick<GroupCounts, "sessions" | "checks">;

/**
 * Whom to look at, for each cue that has come: drawn from the session's own stream among those who were
 * present at the cue, with this week's earlier checks in mind. What was drawn for a cue stays, whoever
 * leaves or comes afterwards.
 */
export function drawChecks(
  session: Pick<Session, "plan" | "seed" | "kind" | "day">,
  studentIds: readonly string[],
  cues: SessionState["cues"],
  record: Earlier,
): SpotCheckMoment[] {
  const { plan, seed, kind } = session;
  const cueCount = sessionSchedule(plan, seed).cues.length;
  const chosen = stepOfPace[plan.checkPace];
  // In a practice every cue is a chance to compare.
  const every = kind === "practice" ? 1 : (chosen ?? groupStanding(record).every);
  return spotCheckDraw({
    seed,
    cueCount,
    every,
    present: Array.from({ length: cueCount }, (_, index) => {
      const cue = cues.get(index + 1);
      return cue?.standing === "delivered" ? studentIds.filter((id) => !cue.aside.has(id)) : [];
    }),
    studentsPerCheck: plan.studentsPerCheck,
    earlierChecks: checksOfWeek(session.day, record),
    closely: chosen === null ? checkedClosely(record) : new Set(),
  });
}

/** At which of the students' own cues to look at their owner, of the whole session. */
export function drawOwnChecks(
  { plan, seed, day }: Pick<Session, "plan" | "seed" | "day">,
  studentIds: readonly string[],
  record: Earlier,
): OwnCue[] {
  const chosen = stepOfPace[plan.checkPace];
  return ownCheckDraw({
    seed,
    planned: ownSchedule(plan, seed, studentIds),
    every: chosen ?? groupStanding(record).every,
    studentsPerCheck: plan.studentsPerCheck,
    earlierChecks: checksOfWeek(day, record),
    closely: chosen === null ? checkedClosely(record) : new Set(),
  });
}

function checksOfWeek(day: string, { checks }: Earlier) {
  const week = mondayOf(dayNumber(day));
  const counts: { [studentId: string]: number } = {};
  for (const check of checks) {
    if (mondayOf(dayNumber(check.day)) !== week) continue;
    counts[check.studentId] = (counts[check.studentId] ?? 0) + 1;
  }
  return counts;
}
