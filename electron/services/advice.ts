import { kindAfterMove } from "../../shared/advice/kind-after-move.ts";
import type { Accepted, Move } from "../../shared/api/advice.ts";
import type { Plan } from "../../shared/api/plans.ts";
import { dayNumber, dayText } from "../../shared/calendar/calendar.ts";
import { localDay } from "../../shared/calendar/local-day.ts";
import type { Phase } from "../../shared/phase/phase.ts";
import { thinnedWorth } from "../../shared/points/thinned-worth.ts";
import type { Program } from "../../shared/roster/program.ts";
import { fadedPlan } from "../../shared/schedule/fading.ts";
import { planInUse, sessionsForPlanInUse } from "../../shared/session/plan-in-use.ts";
import type { Store } from "../store/store.ts";
import type { Changes } from "./base/changes.ts";
import type { Handlers } from "./base/handlers.ts";
import { knownGroup, studentOf } from "./base/known.ts";
import { Missing, Refusal } from "./base/refusal.ts";
import { todayOf, type WallClock } from "./base/wall-clock.ts";
import { refuseImpossible } from "./plans.ts";
import { cameNow, programOf, refuseBeyond } from "./program.ts";

type Decided = Parameters<Handlers["advice"]["decide"]>[0];

/** What became of each piece of advice. */
export function adviceHandlers(
  store: Store,
  changes: Changes,
  clock: WallClock,
): Handlers["advice"] {
  function keep(decision: Decided) {
    knownGroup(store, decision.groupId);
    if (decision.studentId !== null) studentOf(store, decision.groupId, decision.studentId);
    const decidedMs = clock.wallMs();
    const day = localDay(decidedMs, clock.offsetMinutes());
    return store.decisions.add({ ...decision, decidedMs, day });
  }

  return {
    decisions: ({ groupId }) => store.decisions.list(groupId),

    decide(decision) {
      const made = keep(decision);
      changes.publish("program");
      return made;
    },

    accept(accepted) {
      const { groupId, studentId, advice, note } = accepted;
      const move = store.transaction((): Move => {
        const decision = keep({ groupId, studentId, advice, note, accepted: true });
        const before = programOf(store, groupId, clock);
        refuseElsewhere(before, accepted);
        const { pointsPaid, ...kept } = before;
        const moved = cameNow({ ...kept, place: accepted.toPlace }, clock);
        store.programs.save(moved);
        const program = { ...moved, pointsPaid };
        const plan = giveCues(store, program, accepted.worth ?? "raised");
        return { decision, program, plan, phases: beginPhases(store, accepted, program, clock) };
      });
      changes.publish("program", "plans", "phases", "points");
      return move;
    },
  };
}

/** The page's advice was drawn from another place, or leads off the ladder or nowhere. */
function refuseElsewhere(program: Program, { fromPlace, toPlace }: Accepted): void {
  refuseBeyond({ ...program, place: toPlace });
  if (program.place === fromPlace && toPlace !== fromPlace) return;
  throw new Refusal(
    "program-moved",
    "The program no longer stands where this advice was drawn from. Look at the new advice.",
    { place: program.place + 1 },
  );
}

/** Gives the plan in use the cues of the program's step; null past the last cue, where no plan changes. */
function giveCues(
  store: Store,
  { groupId, place, stepMeansSeconds }: Program,
  worth: "raised" | "kept",
): Plan | null {
  const mean = stepMeansSeconds[place];
  if (mean === undefined) return null;
  const sessions = store.sessions.list(groupId, sessionsForPlanInUse);
  const plan = planInUse(store.plans.list(groupId), sessions);
  if (plan === null) throw new Missing("plan");
  const faded = fadedPlan(plan.settings, mean);
  refuseImpossible(faded);
  // Fewer cues then bring as many points.
  const paid = plan.settings.earning;
  const earning = worth === "raised" ? thinnedWorth(paid, plan.settings, faded) : paid;
  const settings = { ...faded, earning };
  store.plans.update({ id: plan.id, name: plan.name, settings });
  return { ...plan, settings };
}

/**
 * Begins the condition that the move leads to: for the group, and for each student who is read by phases
 * of their own and is past the baseline, because cues are everybody's. A phase of that kind that starts
 * on the same day already is left as it is.
 */
function beginPhases(
  store: Store,
  { groupId, fromPlace, toPlace, phaseLabel }: Accepted,
  { stepMeansSeconds }: Program,
  clock: WallClock,
): Phase[] {
  const kind = kindAfterMove({ cueSteps: stepMeansSeconds.length }, fromPlace, toPlace);
  const startsOn = firstDay(store, groupId, clock);
  const known = store.phases.list(groupId);
  return [null, ...pastOwnBaseline(known, startsOn)].map((studentId) => {
    const same = known.find(
      (phase) =>
        phase.studentId === studentId && phase.kind === kind && phase.startsOn === startsOn,
    );
    if (same !== undefined) return same;
    const facts = { groupId, studentId, kind, label: phaseLabel, startsOn };
    return store.phases.create({ ...facts, draw: null, probes: null }, clock.wallMs());
  });
}

/** Today, or tomorrow when the group has sat today: those records were made under the old condition. */
function firstDay(store: Store, groupId: string, clock: WallClock): string {
  const today = todayOf(clock);
  const newest = store.sessions
    .list(groupId, sessionsForPlanInUse)
    .find(({ kind }) => kind !== "practice");
  return newest?.day === today ? dayText(dayNumber(today) + 1) : today;
}

/** Students whose own phases have left the baseline by a day. */
function pastOwnBaseline(phases: readonly Phase[], day: string): string[] {
  const present = new Map<string, Phase>();
  for (const phase of phases) {
    if (phase.studentId !== null && phase.startsOn <= day) present.set(phase.studentId, phase);
  }
  return [...present].flatMap(([studentId, { kind }]) => (kind === "baseline" ? [] : studentId));
}
