import type { Earning } from "../../../shared/plan/earning.ts";
import type { CheckPace, PlanSettings } from "../../../shared/plan/plan.ts";
import { plannedCheckedShare, usualRules, usualTimes } from "../../../shared/points/truth.ts";
import type { SessionKind } from "../../../shared/session/event.ts";
import { replay } from "../../../shared/session/reduce.ts";
import { cuesOf, isAsked, type SessionState } from "../../../shared/session/state.ts";
import type { Store } from "../../store/store.ts";

/** Sessions from which the share of checked cues is counted. */
const sessionsCounted = 10;
/** Cues of a student from which such a share says anything. Common practice, no source. */
const fewestCues = 20;

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
 * Share of a student's delivered cues with an answered check over the last ten seatwork sessions, of the
 * student who is checked least: the truth must pay for that one too. Who had fewer than twenty cues says
 * nothing yet; before anybody had so many, what the plan intends.
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
  const sums = new Map(ids.map((id) => [id, { cues: 0, checked: 0 }]));
  for (const { id } of held) {
    const state = replay(log.read(id, 0));
    if (state.leftOutBecause === null) addChecks(state, sums);
  }
  const shares = [...sums.values()].flatMap(({ cues, checked }) =>
    cues < fewestCues ? [] : [checked / cues],
  );
  if (shares.length > 0) return Math.min(1, ...shares);
  return plannedCheckedShare({ studentsPerCheck, every: everyOf[checkPace] }, ids.length);
}

function addChecks(
  state: SessionState,
  sums: ReadonlyMap<string, { cues: number; checked: number }>,
): void {
  const answered = new Set(
    state.spotChecks
      .filter(({ cue, value }) => cue !== null && value !== "unseen")
      .map(({ studentId, cue }) => `${studentId}/${cue}`),
  );
  for (const [studentId, sum] of sums) {
    for (const cue of cuesOf(state, studentId).keys()) {
      if (!isAsked(state, studentId, cue)) continue;
      sum.cues++;
      if (answered.has(`${studentId}/${cue}`)) sum.checked++;
    }
  }
}
