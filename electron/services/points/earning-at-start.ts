import type { Earning } from "../../../shared/plan/earning.ts";
import type { CheckPace, PlanSettings } from "../../../shared/plan/plan.ts";
import { plannedCheckedShare, usualRules, usualTimes } from "../../../shared/points/truth.ts";
import type { SessionKind } from "../../../shared/session/event.ts";
import { replay } from "../../../shared/session/reduce.ts";
import { cuesOf, isAsked, type SessionState } from "../../../shared/session/state.ts";
import type { Store } from "../../store/store.ts";

/** Sessions from which the share of checked cues is counted. */
const sessionsCounted = 10;

const everyOf: Readonly<Record<CheckPace, number>> = {
  automatic: 1,
  every: 1,
  second: 2,
  fourth: 4,
  tenth: 10,
};

type Kept = Pick<Store, "sessions" | "log" | "students" | "settings">;

/**
 * The plan of a session that starts now, with what it earns fixed: the usual rule takes the worth of a match
 * from how many cues are checked. Nothing is earned outside seatwork, or where points are switched off.
 */
export function withEarning(
  store: Kept,
  groupId: string,
  kind: SessionKind,
  plan: PlanSettings,
): PlanSettings {
  return { ...plan, earning: earningNow(store, groupId, kind, plan) };
}

function earningNow(store: Kept, groupId: string, kind: SessionKind, plan: PlanSettings): Earning {
  const { earning } = plan;
  if (earning.kind === "none" || kind !== "seatwork" || !store.settings.get().points) {
    return { kind: "none" };
  }
  if (earning.kind === "own") return earning;
  const share = checkedShare(store, groupId, plan);
  return { ...earning, rules: usualRules(share, usualTimes(earning.rules)) };
}

/**
 * Share of a student's delivered cues with an answered check over the last ten seatwork sessions; before
 * there is any, what the plan intends.
 */
export function checkedShare(
  { sessions, log, students }: Omit<Kept, "settings">,
  groupId: string,
  { studentsPerCheck, checkPace }: Pick<PlanSettings, "studentsPerCheck" | "checkPace">,
): number {
  const ids = students.list(groupId, false).map(({ id }) => id);
  const held = sessions
    .list(groupId, 3 * sessionsCounted)
    .filter(({ kind }) => kind === "seatwork")
    .slice(0, sessionsCounted);
  let [cues, checked] = [0, 0];
  for (const { id } of held) {
    const state = replay(log.read(id, 0));
    if (state.leftOutBecause !== null) continue;
    const counted = checksOf(state, ids);
    cues += counted.cues;
    checked += counted.checked;
  }
  if (cues > 0) return Math.min(1, checked / cues);
  return plannedCheckedShare({ studentsPerCheck, every: everyOf[checkPace] }, ids.length);
}

function checksOf(state: SessionState, studentIds: readonly string[]) {
  const answered = new Set(
    state.spotChecks
      .filter(({ cue, value }) => cue !== null && value !== "unseen")
      .map(({ studentId, cue }) => `${studentId}/${cue}`),
  );
  let [cues, checked] = [0, 0];
  for (const studentId of studentIds) {
    for (const cue of cuesOf(state, studentId).keys()) {
      if (!isAsked(state, studentId, cue)) continue;
      cues++;
      if (answered.has(`${studentId}/${cue}`)) checked++;
    }
  }
  return { cues, checked };
}
