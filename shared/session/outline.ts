import { deliveredCount, type SessionState } from "./state.ts";

/** What a list of sessions says of one. */
export interface SessionOutline {
  readonly status: "running" | "paused" | "ended";
  /** Where students have own cues, those of all of them together. */
  readonly cuesDelivered: number;
  /** Ids of students with a mark that stands, a total, or an observation. */
  readonly recorded: ReadonlySet<string>;
  /** Ids of students who are set aside. */
  readonly setAside: ReadonlySet<string>;
  /** Why it is left out of every number; null while it counts. */
  readonly leftOutBecause: string | null;
  /** Whether it is left out because it was a trial. */
  readonly isTrial: boolean;
}

/**
 * The outline of a session from what its log says.
 *
 * Example: outlineOf(emptySession).status // "running"
 */
export function outlineOf(state: SessionState): SessionOutline {
  const { status, totals, setAside, leftOutBecause, isTrial } = state;
  const recorded = new Set(totals.keys());
  for (const [studentId, marks] of state.marks) {
    for (const { value } of marks.values()) if (value !== "none") recorded.add(studentId);
  }
  for (const { studentId } of state.observed.values()) recorded.add(studentId);
  return {
    status: status === "ready" ? "running" : status,
    cuesDelivered: deliveredCount(state),
    recorded,
    setAside,
    leftOutBecause,
    isTrial,
  };
}
