import type { Session } from "../../../shared/api/sessions.ts";

/** What the teacher's window shows below the strip; `strip` is the adult's own view, which no student sees. */
export type SessionView = "tiles" | "board" | "strip";

type Facts = Pick<Session, "kind" | "plan">;

/** Whether students record at the shared screen. */
export const recordsOnScreen = ({ kind, plan }: Facts): boolean =>
  plan.recording === "screen" && (kind === "seatwork" || kind === "practice");

/**
 * What can be shown below the strip. The class does not see the teacher's view, so a cue that does not sound
 * has to be in sight in another window; where students record on a screen, that is the class screen.
 *
 * @param hasOthers whether another window follows the session too
 */
export function viewsOf(session: Facts, hasOthers: boolean): SessionView[] {
  const views: SessionView[] = recordsOnScreen(session) ? ["tiles", "board"] : ["board"];
  const hidesCues = session.plan.cueing === "silent" && !hasOthers && !recordsOnScreen(session);
  return hidesCues ? views : [...views, "strip"];
}

/**
 * What is shown first. The teacher's screen is the teacher's own: where students record on a screen, theirs
 * is the class screen, which has none of the adult's buttons. A practice and silent cues on paper are
 * looked at together.
 */
export function firstView(session: Facts): SessionView {
  if (session.kind === "practice") return classView(session);
  const isShared = session.plan.cueing === "silent" && !recordsOnScreen(session);
  return isShared ? "board" : "strip";
}

/** What shows the class its cues when this window has to. */
export const classView = (session: Facts): SessionView =>
  recordsOnScreen(session) ? "tiles" : "board";
