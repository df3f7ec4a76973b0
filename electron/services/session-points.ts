import type { Session } from "../../shared/api/sessions.ts";
import { takesPoints } from "../../shared/plan/earning.ts";
import { takeRefusal } from "../../shared/points/guard.ts";
import type { Store } from "../store/store.ts";
import type { Handlers } from "./base/handlers.ts";
import { studentOfSession } from "./base/known.ts";
import { Missing, Refusal } from "./base/refusal.ts";
import { momentOf, type WallClock } from "./base/wall-clock.ts";
import type { Conductor } from "./live/conductor.ts";
import { sessionStudents } from "./live/session-summary.ts";
import { newestUndoable, takeInputs } from "./points/take-inputs.ts";

/** Points of one session: given and taken while it goes on, and pluses typed in afterwards. */
export function sessionPoints(
  store: Store,
  conductor: Conductor,
  clock: WallClock,
): Pick<Handlers["points"], "give" | "take" | "undoPress" | "stop" | "standings" | "savePluses"> {
  const { ledger } = store;
  const when = () => momentOf(clock);

  /** A session that earns, and a student of it. */
  function earning(sessionId: string, studentId?: string): Session {
    const session = store.sessions.get(sessionId);
    if (session === null) throw new Missing("session");
    if (session.plan.earning.kind === "none") {
      throw new Refusal("points-off", "This session earns no points.");
    }
    if (studentId !== undefined) studentOfSession(store, session, studentId);
    return session;
  }

  return {
    give({ sessionId, studentId, amount, why, press }) {
      const { groupId } = earning(sessionId, studentId);
      if (store.agreed.saidNo(groupId, "points").has(studentId)) {
        throw new Refusal("points-not-agreed", "It was agreed that this student earns no points.");
      }
      conductor.command(sessionId, { kind: "give", studentId, amount, why, press });
      return {};
    },

    take({ sessionId, studentId, amount, why, press }) {
      const session = earning(sessionId, studentId);
      if (store.agreed.saidNo(session.groupId, "taken").has(studentId)) {
        throw new Refusal("taking-not-agreed", "It was agreed that no points are taken here.");
      }
      if (!takesPoints(session.plan.earning)) {
        throw new Refusal("points-taking-off", "In this session no points are taken.");
      }
      const state = conductor.stateOf(sessionId);
      const verdict = takeRefusal(takeInputs(ledger, session, state, studentId, when()), amount);
      const asked = { kind: "take", studentId, amount, why, press, verdict } as const;
      conductor.command(sessionId, asked);
      return {};
    },

    undoPress({ sessionId, studentId, press }) {
      earning(sessionId, studentId);
      conductor.command(sessionId, { kind: "undo-press", studentId, press });
      return {};
    },

    stop({ sessionId, studentId }) {
      earning(sessionId, studentId);
      conductor.command(sessionId, { kind: "stop-points", studentId });
      return {};
    },

    standings({ sessionId }) {
      const session = earning(sessionId);
      const state = conductor.stateOf(sessionId);
      const unpaid = store.agreed.saidNo(session.groupId, "points");
      const paid = sessionStudents(store, session).filter(({ id }) => !unpaid.has(id));
      return paid.map(({ id }) => {
        const inputs = takeInputs(ledger, session, state, id, when());
        const { balance, today, lately, stoppedToday } = inputs;
        const newestTake = newestUndoable(state, id, clock.wallMs());
        return { studentId: id, balance, ...today, lately, stopped: stoppedToday, newestTake };
      });
    },

    savePluses({ sessionId, pluses }) {
      for (const { studentId } of pluses) earning(sessionId, studentId);
      const newest = [...new Map(pluses.map((each) => [each.studentId, each])).values()];
      conductor.command(sessionId, { kind: "enter-pluses", pluses: newest });
      return {};
    },
  };
}
