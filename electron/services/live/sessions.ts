import type { Observing, Session } from "../../../shared/api/sessions.ts";
import { localDay } from "../../../shared/calendar/local-day.ts";
import type { PlanSettings } from "../../../shared/plan/plan.ts";
import type { SessionKind } from "../../../shared/session/event.ts";
import { planForKind } from "../../../shared/session/kind-plan.ts";
import type { Store } from "../../store/store.ts";
import type { DesktopClock } from "../base/clock.ts";
import type { Handlers } from "../base/handlers.ts";
import { studentOf, studentOfSession } from "../base/known.ts";
import { Missing, Refusal } from "../base/refusal.ts";
import { withEarning } from "../points/earning-at-start.ts";
import type { Conductor } from "./conductor.ts";
import { checkRunnable } from "./runnable.ts";
import { sessionCommands } from "./session-commands.ts";
import { freshSeed } from "./session-seed.ts";
import { outsiders, sessionStudents, sessionSummaries } from "./session-summary.ts";

const dayMs = 86_400_000;

/** Starting, running and listing sessions. */
export function sessionHandlers(
  store: Store,
  conductor: Conductor,
  clock: DesktopClock,
): Handlers["sessions"] {
  const summaries = sessionSummaries(store, conductor);

  function known(sessionId: string): Session {
    const session = store.sessions.get(sessionId);
    if (session === null) throw new Missing("session");
    return session;
  }

  const checkStudent = (sessionId: string, studentId: string): void =>
    void studentOfSession(store, known(sessionId), studentId);

  /** Who of a group does not belong to an observation: everybody who is not watched. */
  function notWatched(groupId: string, observing: Observing | undefined): string[] {
    if (observing === undefined) return [];
    for (const studentId of observing.studentIds) studentOf(store, groupId, studentId);
    const watched = new Set(observing.studentIds);
    const students = store.students.list(groupId, false);
    return students.map(({ id }) => id).filter((id) => !watched.has(id));
  }

  return {
    start({ groupId, planId, kind, seed, observing, absentIds = [], byTouchIds = [] }) {
      const group = store.groups.get(groupId);
      if (group === null || group.archived) throw new Missing("group");
      const kept = store.plans.get(planId);
      if (kept === null || kept.groupId !== groupId) throw new Missing("plan");
      checkNothingOpen(store);
      const out = outsiders(store, groupId, kind);
      if (store.students.list(groupId, false).every(({ id }) => out.has(id))) {
        throw new Refusal("group-empty", "Add at least one student to the group before starting.", {
          group: group.name,
        });
      }
      for (const studentId of [...absentIds, ...byTouchIds]) studentOf(store, groupId, studentId);
      const kindPlan = planForKind(kept.settings, kind, observing?.lookEverySeconds);
      const isOwn = kindPlan.cueing === "own";
      // Cards of paper come from whoever has no device, and from nobody else.
      const recording = byTouchIds.length > 0 ? "paper" : "seat";
      const plan = withEarning(store, groupId, kind, isOwn ? { ...kindPlan, recording } : kindPlan);
      checkRunnable(plan);
      const session = begin(store, conductor, clock, {
        groupId,
        kind,
        seed: seed ?? freshSeed(),
        planName: kept.name,
        plan,
        absentIds: [...new Set([...absentIds, ...out, ...notWatched(groupId, observing)])],
        ownCues: isOwn ? { byTouchIds } : undefined,
      });
      conductor.start(session);
      return session;
    },

    open() {
      const id = store.log.openSessionId();
      const session = id === null ? null : store.sessions.get(id);
      return session === null ? null : (summaries.of([session])[0] ?? null);
    },

    onPaper({ days }) {
      const from = localDay(clock.wallMs() - (days - 1) * dayMs, clock.offsetMinutes());
      return summaries.of(store.sessions.onPaperSince(from));
    },

    list: ({ groupId, limit }) => summaries.of(store.sessions.list(groupId, limit)),

    get({ sessionId }) {
      const session = known(sessionId);
      const { leftOutBecause } = store.outlines.of(sessionId);
      return { session, students: sessionStudents(store, session), leftOutBecause };
    },

    watch: ({ sessionId, after }, { signal }) => conductor.watch(sessionId, after, signal),
    clock: () => conductor.clockNow(),
    cueCalls: ({ sessionId, window, can }, { signal }) =>
      conductor.cueCalls(sessionId, window, can, signal),
    cueMeans({ sessionId, window, can }) {
      conductor.cueMeans(sessionId, window, can);
      return {};
    },
    leaveCues({ sessionId, window }) {
      conductor.leaveCues(sessionId, window);
      return {};
    },
    cueDelivered({ sessionId, ...told }) {
      conductor.cueDelivered(sessionId, told);
      return {};
    },
    cueUndelivered({ sessionId, cue, problem }) {
      conductor.cueUndelivered(sessionId, cue, problem);
      return {};
    },
    pause({ sessionId }) {
      conductor.pause(sessionId);
      return {};
    },
    resume({ sessionId }) {
      conductor.resume(sessionId);
      return {};
    },
    skipCue: ({ sessionId }) => ({ cue: conductor.skip(sessionId) }),
    end({ sessionId }) {
      conductor.end(sessionId);
      return {};
    },

    ...sessionCommands(conductor, checkStudent),
  };
}

interface Beginning {
  readonly groupId: string;
  readonly kind: SessionKind;
  readonly seed: string;
  readonly planName: string;
  readonly plan: PlanSettings;
  readonly absentIds: readonly string[];
  readonly ownCues: { readonly byTouchIds: readonly string[] } | undefined;
}

/** A session that begins now, with who is absent and the turn it takes; all of it is written or nothing. */
function begin(
  store: Store,
  conductor: Conductor,
  clock: DesktopClock,
  { absentIds, ownCues, ...facts }: Beginning,
): Session {
  const startedMs = clock.wallMs();
  const offsetMinutes = clock.offsetMinutes();
  const day = localDay(startedMs, offsetMinutes);
  return store.transaction(() => {
    const session = store.sessions.create({ ...facts, startedMs, offsetMinutes, day });
    const ownGoals = paysByGoal(facts.plan) ? store.wishes.ownGoals(facts.groupId) : [];
    conductor.command(session.id, { kind: "begin", absentIds, ownGoals, ownCues });
    // Seatwork alone takes turns: whoever observes, or probes, does so under whatever is the rule.
    if (facts.kind === "seatwork") store.alternations.takeTurn(facts.groupId, session.id);
    return session;
  });
}

/** Own goals are fixed with the rules: changed later, they change nothing of a session that was held. */
const paysByGoal = ({ earning }: PlanSettings): boolean =>
  earning.kind !== "none" && earning.rules.goal > 0;

function checkNothingOpen(store: Store): void {
  if (store.log.openSessionId() === null) return;
  throw new Refusal(
    "session-running",
    "Another session is still open. End it, or resume it, before starting a new one.",
  );
}
