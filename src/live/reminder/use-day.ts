import { dayNumber, weekdayOf } from "../../../shared/calendar/calendar.ts";
import { duePeriod, nextPeriod } from "../../../shared/calendar/next-period.ts";
import type { GroupPeriod } from "../../../shared/calendar/timetable.ts";
import { useDaysOff, useSessions, useTimetable } from "../../api/queries.ts";
import { useMinutes } from "./use-minutes.ts";

/** A day has fewer sessions than this in any school. */
const mostOfADay = 60;

/** How a group's day stands by its timetable. */
export interface GroupDay {
  /** When today's sessions began, in minutes since midnight, the first first. */
  readonly held: readonly number[];
  /** What comes next, or goes on without a session; null when nothing is planned any more. */
  readonly next: GroupPeriod | null;
  /** What is to be reminded of now. */
  readonly due: GroupPeriod | null;
}

const noDay: GroupDay = { held: [], next: null, due: null };

/** How the day of each group stands, by the timetable and what was begun today. */
export function useDay(): (groupId: string) => GroupDay {
  const now = useMinutes();
  const timetable = useTimetable().data;
  const daysOff = useDaysOff().data ?? [];
  const sessions = useSessions(null, mostOfADay).data ?? [];
  if (timetable === undefined) return () => noDay;
  const { today, groups, periods } = timetable;
  const weekday = weekdayOf(dayNumber(today));
  const isOff = daysOff.some(({ firstDay, lastDay }) => firstDay <= today && today <= lastDay);
  return (groupId) => {
    const held = sessions
      .filter((session) => session.groupId === groupId && session.day === today)
      .filter(({ kind }) => kind === "seatwork")
      .map(({ startedMs, offsetMinutes }) => minutesAt(startedMs, offsetMinutes))
      .sort((a, b) => a - b);
    const sits = groups.find((group) => group.groupId === groupId)?.weekdays.includes(weekday);
    if (sits !== true || isOff) return { ...noDay, held };
    const own = periods.filter((period) => period.groupId === groupId);
    return { held, next: nextPeriod(own, now, held), due: duePeriod(own, now, held) };
  };
}

function minutesAt(wallMs: number, offsetMinutes: number): number {
  const day = 24 * 60;
  return (Math.floor(wallMs / 60_000 + offsetMinutes) % day) + (wallMs < 0 ? day : 0);
}
