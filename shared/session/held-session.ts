import type { PlanSettings } from "../plan/plan.ts";
import { ownSchedule } from "../schedule/own-schedule.ts";
import { sessionSchedule } from "../schedule/session-schedule.ts";
import type { SessionEventBody, TimedBody } from "./event.ts";

/** Which cues came in a session that was held without the app. */
export type HeldCues =
  | {
      readonly kind: "seed";
      readonly seed: string;
      /** Whose own key it was; null for the group's. */
      readonly studentId: string | null;
      /** Numbers of the cues on the key that did not come. */
      readonly missed: readonly number[];
    }
  /** No key is at hand: only how many cues there were is known. */
  | { readonly kind: "counted"; readonly count: number };

/**
 * The log of a session that was held without the app, from a printed key, a recording or a count: the
 * same as that of a live session with this plan and seed in which the same cues were delivered, apart
 * from what only a computer can know (when a cue was announced, and how late it began).
 *
 * @param plan the session's settings; a count may stand beside any that can be run
 * @param absentIds who was not there from the first moment
 * @param note what the adult says of it, such as who led it; nothing when empty
 * @param ownIds who was cued, under a plan of own cues: each by a touch at the moments of their own key
 * @returns each event with its session time in ms; with a count no time of a cue is known, and all are 0
 *
 * Example: heldSession(firstPlan, { kind: "counted", count: 3 }, [], "").length // 5
 * @throws RangeError when the plan cannot be run.
 */
export function heldSession(
  plan: PlanSettings,
  cues: HeldCues,
  absentIds: readonly string[],
  note: string,
  ownIds: readonly string[] = [],
): TimedBody[] {
  const isOwn = plan.cueing === "own";
  const by = plan.cueing === "sound" ? "sound" : "sight";
  const missed = new Set(cues.kind === "seed" ? cues.missed : []);
  const ofClass = (): TimedBody[] =>
    momentsMs(plan, cues).map((atMs, index): TimedBody => {
      const cue = index + 1;
      const body: SessionEventBody = missed.has(cue)
        ? { kind: "undelivered", cue, reason: "skipped" }
        : { kind: "delivered", cue, by, latenessMs: null, problem: null };
      return { atMs, body };
    });
  const cameOrNot = isOwn ? ownCues(plan, cues, ownIds) : ofClass();
  const endMs = plan.lengthSeconds * 1_000;
  return [
    { atMs: 0, body: { kind: "begun", ...(isOwn ? { cueing: "own" as const } : {}) } },
    ...(isOwn ? ownIds : []).map(
      (studentId): TimedBody => ({ atMs: 0, body: { kind: "by-touch", studentId } }),
    ),
    ...absentIds.map(
      (studentId): TimedBody => ({ atMs: 0, body: { kind: "set-aside", studentId } }),
    ),
    ...cameOrNot,
    { atMs: endMs, body: { kind: "ended", reason: "finished" } },
    ...(note === "" ? [] : [{ atMs: endMs, body: { kind: "note", text: note } } as const]),
  ];
}

/** Each student's own cues; which of a whole class's did not come nobody can say. */
function ownCues(plan: PlanSettings, cues: HeldCues, ids: readonly string[]): TimedBody[] {
  const missed = new Set(cues.kind === "seed" && ids.length === 1 ? cues.missed : []);
  const planned =
    cues.kind === "seed"
      ? ownSchedule(plan, cues.seed, ids)
      : ids.flatMap((studentId) =>
          Array.from({ length: cues.count }, (_, at) => ({ studentId, cue: at + 1, seconds: 0 })),
        );
  return planned.map(({ studentId, cue, seconds }): TimedBody => {
    const body: SessionEventBody = missed.has(cue)
      ? { kind: "undelivered", studentId, cue, reason: "skipped" }
      : { kind: "delivered", studentId, cue, by: "touch", latenessMs: null, problem: null };
    return { atMs: seconds * 1_000, body };
  });
}

function momentsMs(plan: PlanSettings, cues: HeldCues): number[] {
  if (cues.kind === "counted") return Array.from({ length: cues.count }, () => 0);
  const whose = cues.studentId === null ? {} : { studentId: cues.studentId };
  return sessionSchedule(plan, cues.seed, whose).cues.map((seconds) => seconds * 1_000);
}
