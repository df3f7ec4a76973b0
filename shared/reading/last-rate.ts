import type { GroupCounts } from "../record/group-counts.ts";

/** The newest seatwork of a group that has marks, all students' added up. */
export interface LastRate {
  readonly sessionId: string;
  /** Local day, `YYYY-MM-DD`. */
  readonly day: string;
  readonly on: number;
  /** Marks of both kinds; the rate is on / marks. */
  readonly marks: number;
}

/**
 * How the newest seatwork with marks went; null before there is any.
 *
 * Example: lastRate({ sessions: [], counts: [] }) // null
 *
 * @param counts sessions oldest first, with a column of numbers for each student
 */
export function lastRate(counts: Pick<GroupCounts, "sessions" | "counts">): LastRate | null {
  for (let at = counts.sessions.length - 1; at >= 0; at -= 1) {
    const session = counts.sessions[at];
    if (session === undefined || session.kind !== "seatwork") continue;
    let on = 0;
    let marks = 0;
    for (const { self } of counts.counts) {
      on += self.on[at] ?? 0;
      marks += (self.on[at] ?? 0) + (self.off[at] ?? 0);
    }
    if (marks > 0) return { sessionId: session.id, day: session.day, on, marks };
  }
  return null;
}
