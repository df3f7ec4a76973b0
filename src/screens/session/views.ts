import type { Session } from "../../../shared/api/sessions.ts";

/** What the teacher's window shows below the strip; `strip` is the adult's own view, which no student sees. */
export type SessionView = "tiles" | "board" | "strip";

type Facts = Pick<Session, "kind" | "plan">;

/** Whether students record at the shared screen. */
export const recordsOnScreen = ({ kind, plan }: Facts): boolean =>
  plan.recording === "screen" && (kind === "seatwork" || kind === "practice");

/** What can be shown below the strip. A cue that does not sound has to be in sight. */
export function viewsOf(session: Facts): SessionView[] {
  const views: SessionView[] = recordsOnScreen(session) ? ["tiles", "board"] : ["board"];
  return session.plan.cueing === "silent" ? views : [...views, "strip"];
}

/** What is shown first. On paper the teacher's screen is the teacher's own, except in a practice. */
export function firstView(session: Facts): SessionView {
  if (recordsOnScreen(session)) return "tiles";
  const isShared = session.plan.cueing === "silent" || session.kind === "practice";
  return isShared ? "board" : "strip";
}
