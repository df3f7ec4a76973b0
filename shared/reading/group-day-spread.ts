import { daySpread } from "../analysis/day-spread.ts";
import { recentOf } from "../analysis/recent.ts";
import type { GroupCounts } from "../record/group-counts.ts";
import { sessionsOf } from "./session-counts.ts";

/**
 * How much the days of a group's students differ, from their own records of the recent sessions: a standard
 * deviation of shares, for the planner. Null where no student has five such sessions.
 *
 * Example: groupDaySpread(counts) // 0.14
 */
export function groupDaySpread(counts: GroupCounts): number | null {
  const used = counts.students.filter(({ archived }) => !archived);
  return daySpread(used.map(({ id }) => recentOf(sessionsOf(counts, id), "self")));
}
