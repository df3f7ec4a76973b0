import type { Session } from "../../../shared/api/sessions.ts";

/** What the teacher's window shows below the strip; `strip` is the adult's own view, which no student sees. */
export type SessionView = "tiles" | "board" | "strip";

type Facts = Pick<Session, "kind" | "plan">;

/** Whether students record at the shared screen. */
export const recordsOnScreen = ({ kind, plan }: Facts): boolean =>
  plan.recording === "screen" && (kind === "seatwork" || kind === "practice");

/**
 * What can be shown below the strip. The class does not see the teacher's view, so a cue that does not sound
 * has to be in sight in another window.
 *
 * @param hasOthers whether another window follows the session too
 */
export function viewsOf(session: Facts, hasOthers: boolean): SessionView[] {
  const views: SessionView[] = recordsOnScreen(session) ? ["tiles", "board"] : ["board"];
  return session.plan.cueing === "silent" && !hasOthers ? views : [...views, "strip"];
}

/** What is shown first. On paper the teacher's screen is the teacher's own, except in a practice. */
export function firstView(session: Facts): SessionView {
  if (recordsOnScreen(session)) return "tiles";
  const isShared = session.plan.cueing === "silent" || session.kind === "practice";
  return isShared ? "board" : "strip";
}
