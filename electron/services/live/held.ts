import type { Plan } from "../../../shared/api/plans.ts";
import type { HeldInput } from "../../../shared/api/records.ts";
import type { Session } from "../../../shared/api/sessions.ts";
import type { PlanSettings } from "../../../shared/plan/plan.ts";
import { fadedPlan } from "../../../shared/schedule/fading.ts";
import { heldSession } from "../../../shared/session/held-session.ts";
import { earliestMs } from "../../../shared/transfer/import-limits.ts";
import { type Moment, parseMoment } from "../../../shared/transfer/moment.ts";
import type { SessionLog } from "../../store/session-log.ts";
import type { Store } from "../../store/store.ts";
import { Missing, Refusal } from "../base/refusal.ts";
import { withEarning } from "../points/earning-at-start.ts";
import { bringIn } from "./log-door.ts";
import { checkRunnable } from "./runnable.ts";
import { outsiders } from "./session-summary.ts";

/**
 * Enters a session that was held without the app: by a substitute with the printed key, or from the
 * recording. Its cards are then typed in like any other's.
 *
 * @param appendAll writes to the log, with what follows from it in the ledger
 * @param nowMs wall clock, ms since 1970 UTC
 * @throws Missing, Refusal
 */
export function enterHeld(
  store: Store,
  appendAll: SessionLog["appendAll"],
  input: HeldInput,
  nowMs: number,
): Session {
  const { groupId, cues } = input;
  const plan = planOf(store, input);
  const at = momentOf(input.startedAt, nowMs);
  refuseTwice(store, groupId, at.ms);
  const ids = store.students.list(groupId, false).map(({ id }) => id);
  const own = cues.kind === "seed" ? cues.studentId : null;
  for (const id of [...input.absentIds, ...(own === null ? [] : [own])]) {
    if (!ids.includes(id)) throw new Missing("student");
  }
  // A student's own key makes a session of that one student: nobody else was cued.
  const out = outsiders(store, groupId, "seatwork");
  const absent =
    own === null ? [...new Set([...input.absentIds, ...out])] : ids.filter((id) => id !== own);
  const settings = withEarning(store, groupId, "seatwork", {
    ...printedPlan(plan.settings, cues),
    recording: "paper",
  });
  const cued = ids.filter((id) => !absent.includes(id));
  const events = heldSession(settings, cues, absent, input.note, cued);
  return store.transaction(() => {
    const session = store.sessions.create({
      groupId,
      kind: "seatwork",
      planName: plan.name,
      plan: settings,
      seed: cues.kind === "seed" ? cues.seed : `counted ${at.ms}`,
      startedMs: at.ms,
      offsetMinutes: at.offsetMinutes,
      day: at.day,
    });
    bringIn({ read: store.log.read, appendAll }, session.id, events, session);
    return session;
  });
}

/** The plan as its key says it: a key may be printed for a step of thinning. */
function printedPlan(plan: PlanSettings, cues: HeldInput["cues"]): PlanSettings {
  const mean = cues.kind === "seed" ? cues.meanSeconds : null;
  if (mean === null || mean === plan.meanSeconds) return plan;
  const thinned = fadedPlan(plan, mean);
  checkRunnable(thinned);
  return thinned;
}

function planOf(store: Store, { groupId, planId }: HeldInput): Plan {
  const group = store.groups.get(groupId);
  if (group === null || group.archived) throw new Missing("group");
  const plan = store.plans.get(planId);
  if (plan === null || plan.groupId !== groupId) throw new Missing("plan");
  checkRunnable(plan.settings);
  return plan;
}

function momentOf(text: string, nowMs: number): Moment {
  const at = parseMoment(text);
  if (at !== undefined && at.ms >= earliestMs && at.ms <= nowMs) return at;
  throw new Refusal("held-bad-time", "This day and time cannot be. Give those of the lesson.");
}

function refuseTwice(store: Store, groupId: string, startedMs: number): void {
  if (!store.sessions.isThere(groupId, startedMs)) return;
  throw new Refusal(
    "held-already",
    "A session of this group that began at this time is here already. Open it from Today.",
  );
}
