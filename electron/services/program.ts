import { lastPlace } from "../../shared/advice/ladder.ts";
import { localDay } from "../../shared/calendar/local-day.ts";
import { firstPlan } from "../../shared/plan/plan.ts";
import type { KeptProgram, Program } from "../../shared/roster/program.ts";
import type { Store } from "../store/store.ts";
import type { Changes } from "./base/changes.ts";
import type { Handlers } from "./base/handlers.ts";
import { knownGroup } from "./base/known.ts";
import { Missing, Refusal } from "./base/refusal.ts";
import type { WallClock } from "./base/wall-clock.ts";
import { earnsPoints } from "./points/earns-points.ts";

/** The goal of a program until the teacher sets another; common practice, no source. */
const usualGoal = 0.8;
/**
 * Each cue step of the usual ladder is so many times as thin as the first: from two minutes to ten;
 * common practice, no source.
 */
const usualThinning = [1, 1.5, 2.5, 5] as const;
const longestMeanSeconds = 10_800;

/** The program over weeks: its goal, its ladder and the place on it. */
export function programHandlers(
  store: Store,
  changes: Changes,
  clock: WallClock,
): Handlers["program"] {
  return {
    get: ({ groupId }) => programOf(store, groupId, clock),

    save(wanted) {
      const before = programOf(store, wanted.groupId, clock);
      refuseDisorder(wanted.stepMeansSeconds);
      refuseBeyond(wanted);
      const saved = isSamePlace(before, wanted)
        ? { ...wanted, placeSince: before.placeSince, placeSinceMs: before.placeSinceMs }
        : cameNow(wanted, clock);
      store.programs.save(saved);
      changes.publish("program");
      return { ...saved, pointsPaid: before.pointsPaid };
    },
  };
}

/** The saved program, or the usual one. Throws Missing when there is no such group. */
export function programOf(store: Store, groupId: string, clock: WallClock): Program {
  const madeMs = store.groups.madeMs(groupId);
  if (madeMs === null) throw new Missing("group");
  const saved = store.programs.get(groupId);
  const pointsPaid = earnsPoints(store, groupId);
  if (saved !== null) return { ...saved, pointsPaid };
  const densest = store.plans.list(groupId)[0]?.settings.meanSeconds ?? firstPlan.meanSeconds;
  const means = usualThinning.map((times) => Math.min(longestMeanSeconds, densest * times));
  return {
    groupId,
    goal: usualGoal,
    stepMeansSeconds: [...new Set(means)],
    place: 0,
    pointsPaid,
    placeSince: programStart(store, groupId) ?? localDay(madeMs, clock.offsetMinutes()),
    placeSinceMs: null,
  };
}

/** A program that comes to its place at this moment: earlier sessions, of today too, were at another. */
export function cameNow(
  standing: Omit<KeptProgram, "placeSince" | "placeSinceMs">,
  clock: WallClock,
): KeptProgram {
  const placeSinceMs = Math.round(clock.wallMs());
  return { ...standing, placeSince: localDay(placeSinceMs, clock.offsetMinutes()), placeSinceMs };
}

/** First day of the newest phase of the whole group that is no baseline; null when there is none. */
function programStart(store: Store, groupId: string): string | null {
  const phases = store.phases
    .list(groupId)
    .filter(({ kind, studentId }) => studentId === null && kind !== "baseline");
  return phases.at(-1)?.startsOn ?? null;
}

type Standing = Pick<Program, "place" | "stepMeansSeconds">;

/** The same place with other cues is another condition, and counts from its own first day. */
function isSamePlace(before: Standing, after: Standing): boolean {
  return (
    before.place === after.place &&
    before.stepMeansSeconds[before.place] === after.stepMeansSeconds[after.place]
  );
}

function refuseDisorder(means: readonly number[]): void {
  const at = means.findIndex((mean, index) => mean <= (means[index - 1] ?? 0));
  if (at < 0) return;
  throw new Refusal(
    "program-steps-order",
    `Step ${at + 1} is not thinner than the one before it. Put the densest cues first.`,
    { step: at + 1 },
  );
}

/** A place past the end of its ladder is refused. */
export function refuseBeyond({ place, stepMeansSeconds }: Standing): void {
  const last = lastPlace({ cueSteps: stepMeansSeconds.length });
  if (place <= last) return;
  throw new Refusal(
    "program-place-unknown",
    `This ladder ends at place ${last + 1}. Choose a place on it, or add steps.`,
    { place: place + 1, last: last + 1 },
  );
}

/** Examples and non-examples to practise with. */
export function practiceHandlers(store: Store, changes: Changes): Handlers["practice"] {
  return {
    examples: ({ groupId }) => store.practiceExamples.get(knownGroup(store, groupId).id),

    saveExamples({ groupId, examples }) {
      store.practiceExamples.save(knownGroup(store, groupId).id, examples);
      changes.publish("program");
      return {};
    },
  };
}
