import type { Student } from "../../../shared/roster/roster.ts";
import type { Store } from "../../store/store.ts";
import type { Changes } from "../base/changes.ts";
import type { DesktopClock } from "../base/clock.ts";
import type { Handlers } from "../base/handlers.ts";
import { knownGroup, knownStudent } from "../base/known.ts";
import type { Conductor } from "../live/conductor.ts";
import { papersOf } from "./papers.ts";

/** What was agreed about each student, and what holds for the student's papers. */
export function agreedHandlers(
  store: Store,
  conductor: Pick<Conductor, "command">,
  changes: Changes,
  clock: Pick<DesktopClock, "wallMs">,
): Handlers["agreed"] {
  /** Whoever says no while a session is open is asked nothing more in it. */
  function leaveOpenSession({ id, groupId }: Student): void {
    const open = store.log.openSessionId();
    if (open === null) return;
    const session = store.sessions.get(open);
    if (session?.groupId !== groupId) return;
    if (session.kind === "baseline" || session.kind === "probe") return;
    conductor.command(open, { kind: "set-aside", studentId: id, aside: true });
  }

  return {
    ofGroup({ groupId }) {
      knownGroup(store, groupId);
      return store.agreed.ofGroup(groupId);
    },

    of: ({ studentId }) => store.agreed.page(knownStudent(store, studentId).id),

    papers: ({ studentId }) => papersOf(store, knownStudent(store, studentId).id),

    say({ studentId, said }) {
      const student = knownStudent(store, studentId);
      store.agreed.add(studentId, said, clock.wallMs());
      if (said.line === "cued" && said.answer === "no") leaveOpenSession(student);
      // Who takes part decides who is in a session, and what an earning plan pays.
      changes.publish("home", "groups", "students", "sessions", "points", "teams");
      return {};
    },

    savePaper({ studentId, ...change }) {
      knownStudent(store, studentId);
      const { reviewOn, language, cardStopped } = change;
      store.agreed.changePaper(studentId, {
        ...(reviewOn === undefined ? {} : { reviewOn }),
        ...(language === undefined ? {} : { language }),
        ...(cardStopped === undefined ? {} : { cardStopped }),
      });
      changes.publish("home");
      return {};
    },
  };
}
