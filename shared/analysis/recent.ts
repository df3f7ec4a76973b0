import type { SessionCount, Source } from "../record/session-count.ts";
import { inOrder } from "./trend.ts";

/**
 * So many of the newest sessions are recent: about four school weeks. One rule for all that is said of
 * the present: the advice, the flags of the class view and the words on agreement and trend. Common
 * practice, no source.
 */
export const recentSessions = 20;

/** The newest sessions of a source, oldest first; fewer where there are not so many. */
export function recentOf(sessions: readonly SessionCount[], source: Source): SessionCount[] {
  return inOrder(sessions.filter((session) => session.source === source)).slice(-recentSessions);
}

/** The checks made in a student's recent sessions, or in a group's: an old match proves nothing. */
export function recentChecks<Check extends { readonly sessionId: string }>(
  sessions: readonly SessionCount[],
  checks: readonly Check[],
): Check[] {
  const recent = new Set(recentOf(sessions, "self").map(({ sessionId }) => sessionId));
  return checks.filter(({ sessionId }) => recent.has(sessionId));
}
