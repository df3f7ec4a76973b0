import { createHash } from "node:crypto";
import type { Session } from "../../../shared/api/sessions.ts";
import type { SeatStanding } from "../../../shared/seats/message.ts";
import type { SessionState } from "../../../shared/session/state.ts";

/** Under this name a session goes over the line: it says nothing of the session, and is never another's. */
export const nameOnLine = (sessionId: string): string =>
  createHash("sha256").update(`seat ${sessionId}`).digest("base64url").slice(0, 16);

/** Whether a session gives students cues: an observation cues the adult alone. */
export const cuesStudents = ({ kind, plan }: Session): boolean =>
  (kind === "seatwork" || kind === "practice") && plan.cueing !== "teacher";

/**
 * Where a student's seat stands. One who is set aside is not told apart from one between sessions: nothing
 * of the session is shown there.
 */
export function standingOf(
  session: Session | null,
  state: SessionState | null,
  student: { readonly id: string; readonly groupId: string } | null,
): SeatStanding {
  if (student === null) return "untied";
  if (session === null || state === null || !cuesStudents(session)) return "idle";
  if (session.groupId !== student.groupId || state.setAside.has(student.id)) return "idle";
  return state.status === "ready" ? "idle" : state.status;
}
