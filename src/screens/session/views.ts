import type { Session } from "../../../shared/api/sessions.ts";

/** What the teacher's window shows below the strip; `strip` is the adult's own view, which no student sees. */
export type SessionView = "tiles" | "board" | "strip";

type Facts = Pick<Session, "kind" | "plan">;

/** Whether students record at the shared screen. */
export const recordsOnScreen = (session: Facts): boolean =>
  session.plan.recording === "screen" && recordsLive(session);

/**
 * Whether answers that the class waits for come in while the session runs: at the shared screen, or from
 * students' own devices. Of own cues nobody but the student knows that an answer is waited for.
 */
export const recordsLive = ({ kind, plan }: Facts): boolean =>
  plan.recording !== "paper" &&
  plan.cueing !== "own" &&
  (kind === "seatwork" || kind === "practice");

/**
 * What can be shown below the strip. The class does not see the teacher's view, so a cue that does not sound
 * has to be in sight elsewhere: on the class screen, or on the students' own devices.
 *
 * @param hasOthers whether another window follows the session too
 */
export function viewsOf(session: Facts, hasOthers: boolean): SessionView[] {
  const views: SessionView[] = recordsOnScreen(session) ? ["tiles", "board"] : ["board"];
  const hidesCues = session.plan.cueing === "silent" && !hasOthers && !recordsLive(session);
  return hidesCues ? views : [...views, "strip"];
}

/**
 * What is shown first. The teacher's screen is the teacher's own: where students record on a screen, theirs
 * is the class screen, which has none of the adult's buttons, or a device of their own. A practice and silent cues on paper are
 * looked at together.
 */
export function firstView(session: Facts): SessionView {
  if (session.kind === "practice") return classView(session);
  const isShared = session.plan.cueing === "silent" && !recordsLive(session);
  return isShared ? "board" : "strip";
}

/** What shows the class its cues when this window has to. */
export const classView = (session: Facts): SessionView =>
  recordsOnScreen(session) ? "tiles" : "board";
