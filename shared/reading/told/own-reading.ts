import { inOrder } from "../../analysis/trend.ts";
import type { GroupCounts } from "../../record/group-counts.ts";
import { sessionsOf } from "../session-counts.ts";

/** One session of a student's own record, as a child counts it. */
export interface OwnSession {
  readonly sessionId: string;
  /** School-local day. */
  readonly day: string;
  /** Answers, and those that were yes. */
  readonly marks: number;
  readonly on: number;
}

/** What a child is shown of their own record: the last sessions, and no judgement. */
export interface OwnReading {
  /** Oldest first. */
  readonly sessions: readonly OwnSession[];
  readonly marks: number;
  readonly on: number;
  /** Share of yes from 0 to 1 over these sessions; null under `fewestForPercent` answers. */
  readonly share: number | null;
}

/** This many sessions fit on a page that is read from across a desk. */
const shown = 5;
/** From this many answers on, a child is told a percentage; before that, counts. Common practice, no source. */
export const fewestForPercent = 20;

/**
 * The newest sessions with answers of the student's own. What an adult observed is not in it.
 *
 * Example: readOwn({ sessions: [], counts: [] }, "s").marks // 0
 */
export function readOwn(
  counts: Pick<GroupCounts, "sessions" | "counts">,
  studentId: string,
): OwnReading {
  const sessions = inOrder(sessionsOf(counts, studentId))
    .filter(({ source, on, off }) => source === "self" && on + off > 0)
    .slice(-shown)
    .map(({ sessionId, day, on, off }) => ({ sessionId, day, on, marks: on + off }));
  const on = sessions.reduce((sum, session) => sum + session.on, 0);
  const marks = sessions.reduce((sum, session) => sum + session.marks, 0);
  return { sessions, marks, on, share: marks < fewestForPercent ? null : on / marks };
}
