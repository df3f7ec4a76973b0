import type { WorkItems } from "../../shared/transfer/work-fields.ts";
import type { PhasedSession } from "./session-rows.ts";

/** A session's work with the shares that the app shows. */
export type SessionWork = WorkItems & {
  readonly line: number;
  readonly day: string;
  /** Share of the assigned items that were completed, at most 1; null when nothing was assigned. */
  readonly done: number | null;
  /** Share of the completed items that are correct, at most 1; null when unknown. */
  readonly right: number | null;
};

export interface WorkDone {
  readonly sessions: readonly SessionWork[];
  readonly assigned: number;
  readonly completed: number;
  readonly correct: number;
  /** Completed items of the sessions in which correct ones were counted: what `correct` is a share of. */
  readonly lookedAt: number;
}

/** Work by session and in all; null when the file tells of none. */
export function workDone(sessions: readonly PhasedSession[]): WorkDone | null {
  const points = sessions.flatMap(({ work, sessionId, day }) => {
    if (work === null) return [];
    const { assigned, completed, correct } = work;
    const done = assigned === 0 ? null : Math.min(1, completed / assigned);
    const right = correct === null || completed === 0 ? null : Math.min(1, correct / completed);
    return [{ line: Number(sessionId), day, ...work, done, right }];
  });
  if (points.length === 0) return null;
  const sum = (of: (work: WorkItems) => number) =>
    points.reduce((total, each) => total + of(each), 0);
  return {
    sessions: points,
    assigned: sum(({ assigned }) => assigned),
    completed: sum(({ completed }) => completed),
    correct: sum(({ correct }) => correct ?? 0),
    lookedAt: sum(({ correct, completed }) => (correct === null ? 0 : completed)),
  };
}
