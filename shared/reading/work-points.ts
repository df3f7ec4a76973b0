import type { GroupCounts } from "../record/group-counts.ts";
import { type GraphPoint, localMoment } from "./graph-points.ts";
import { isWithin, type Span } from "./span.ts";

/** One session's work beside its on-task rate. */
export interface WorkPoint {
  readonly sessionId: string;
  readonly day: string;
  readonly at: number;
  readonly assigned: number;
  readonly completed: number;
  /** Null when nobody looked how many are right. */
  readonly correct: number | null;
  /** Share of the assigned items that were completed, at most 1; null when nothing was assigned. */
  readonly done: number | null;
  /** Share of the completed items that are correct, at most 1; null when unknown. */
  readonly right: number | null;
  readonly rate: number | null;
}

/** A student's work within the days shown, in order of time. */
export function workPoints(
  counts: Pick<GroupCounts, "sessions" | "work">,
  studentId: string,
  points: readonly GraphPoint[],
  span: Span,
): WorkPoint[] {
  const rates = new Map(
    points
      .filter(({ source }) => source === "self")
      .map(({ sessionId, rate }) => [sessionId, rate]),
  );
  const own = new Map(
    counts.work
      .filter((work) => work.studentId === studentId)
      .map((work) => [work.sessionId, work]),
  );
  return counts.sessions.flatMap((session) => {
    const work = own.get(session.id);
    if (work === undefined || !isWithin(session.day, span)) return [];
    const { assigned, completed, correct } = work;
    return {
      sessionId: session.id,
      day: session.day,
      at: localMoment(session),
      assigned,
      completed,
      correct,
      done: assigned === 0 ? null : Math.min(1, completed / assigned),
      right: correct === null || completed === 0 ? null : Math.min(1, correct / completed),
      rate: rates.get(session.id) ?? null,
    };
  });
}

/** Sums over sessions. Correct items are held only against those sessions in which they were counted. */
export function workSums(points: readonly WorkPoint[]) {
  const sum = (of: (point: WorkPoint) => number) =>
    points.reduce((total, point) => total + of(point), 0);
  return {
    assigned: sum(({ assigned }) => assigned),
    completed: sum(({ completed }) => completed),
    correct: sum(({ correct }) => correct ?? 0),
    lookedAt: sum(({ correct, completed }) => (correct === null ? 0 : completed)),
  };
}
