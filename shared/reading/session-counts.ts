import type { CountColumns, CountedSession, GroupCounts } from "../record/group-counts.ts";
import type { SessionCount, Source } from "../record/session-count.ts";

const minutesInDay = 1_440;

/** One student's sessions of both sources, in the order of the record; empty for an unknown student. */
export function sessionsOf(
  counts: Pick<GroupCounts, "sessions" | "counts">,
  studentId: string,
): SessionCount[] {
  const own = counts.counts.find((columns) => columns.studentId === studentId);
  if (own === undefined) return [];
  return [
    ...sessionsFrom(counts.sessions, own.self, "self"),
    ...sessionsFrom(counts.sessions, own.observer, "observer"),
  ];
}

function sessionsFrom(
  sessions: readonly CountedSession[],
  columns: CountColumns,
  source: Source,
): SessionCount[] {
  return sessions.flatMap((session, at) => {
    const on = columns.on[at] ?? null;
    const off = columns.off[at] ?? null;
    const missing = columns.missing[at] ?? null;
    if (on === null || off === null || missing === null) return [];
    return {
      sessionId: session.id,
      startedAt: session.startedMs,
      day: session.day,
      minuteOfDay: minuteOfDay(session),
      on,
      off,
      missing,
      source,
      ...(session.subject === "" ? {} : { subject: session.subject }),
    };
  });
}

/** Local time of a session's start, in whole minutes after midnight. */
export function minuteOfDay(session: Pick<CountedSession, "startedMs" | "offsetMinutes">): number {
  const minutes = Math.floor(session.startedMs / 60_000) + session.offsetMinutes;
  return ((minutes % minutesInDay) + minutesInDay) % minutesInDay;
}
