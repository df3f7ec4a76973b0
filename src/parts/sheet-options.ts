import {
  type LookInterval,
  lookIntervals,
  usualLookInterval,
} from "../../shared/session/kind-plan.ts";
import { mostObserved } from "../../shared/session/observation-rotation.ts";

/** What a printed sheet and the observation it is for must have in common, beside the plan. */
interface SheetOptions {
  readonly seed: string;
  readonly studentIds: readonly string[];
  readonly pace: LookInterval;
}

/** The options as both pages carry them in their address; an empty seed is left to chance. */
export function sheetOptions({ seed, studentIds, pace }: SheetOptions): URLSearchParams {
  return new URLSearchParams({
    ...(seed === "" ? {} : { seed }),
    students: studentIds.join(","),
    every: String(pace),
  });
}

/**
 * Reads the options from the address of the start page. Whoever it does not name or names wrongly is as
 * without an address: the first students of the room, the usual pace, a seed by chance.
 *
 * @param roster ids of the group's students, in the order of the room
 * @returns `missing` is how many students of the sheet are no longer in the group
 */
export function sheetInAddress(params: URLSearchParams, roster: readonly string[]) {
  const named = (params.get("students") ?? "").split(",").filter((id) => id !== "");
  const here = roster.filter((id) => named.includes(id)).slice(0, mostObserved);
  const kind: "baseline" | "probe" = params.get("kind") === "probe" ? "probe" : "baseline";
  return {
    kind,
    planId: params.get("plan"),
    studentIds: here.length === 0 ? roster.slice(0, mostObserved) : here,
    missing: named.length === 0 ? 0 : new Set(named).size - here.length,
    pace:
      lookIntervals.find((seconds) => String(seconds) === params.get("every")) ?? usualLookInterval,
    seed: (params.get("seed") ?? "").trim().slice(0, 80),
  };
}
