import type { GroupCounts } from "../record/group-counts.ts";
import type { Source } from "../record/session-count.ts";
import { type HeldSession, localMoment } from "./graph-points.ts";

/** Sessions in which anybody has a record of the source: only these can be missed. */
export function heldSessions(counts: GroupCounts, source: Source): HeldSession[] {
  return counts.sessions.flatMap((session, at) =>
    counts.counts.some((student) => (student[source].on[at] ?? null) !== null)
      ? { sessionId: session.id, startsAt: localMoment(session) }
      : [],
  );
}
