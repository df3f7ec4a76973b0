import type { GroupCounts } from "../../record/group-counts.ts";
import { median } from "../../statistics/time-points.ts";

/** A class's own plan: answered cues of a session, and its on-task rate, 0 to 1. */
export interface OwnPlan {
  readonly cues: number;
  readonly rate: number;
}

/** The plan that the figures are computed for, and the rate of the class itself; null without a mark. */
export interface HowSurePlan {
  readonly plan: OwnPlan;
  readonly measured: number | null;
}

/** Newest sessions that show what a class's plan gives. */
const newest = 20;

/** Without a session yet: a plan of ten cues, and a rate like that of many classes. */
const withoutSessions: HowSurePlan = { plan: { cues: 10, rate: 0.6 }, measured: null };

/** Past these a rate leaves no room for a change of ten points either way. */
const rateBounds = { lower: 0.1, upper: 0.9 } as const;

/**
 * The plan that a class really has: the median of marks that a student makes in one of the newest 20
 * sessions, and the on-task rate of all of them, rounded to five points and kept between 10 and 90 %.
 *
 * Example: howSurePlan({ sessions: [], counts: [] }).plan // { cues: 10, rate: .6 }
 */
export function howSurePlan({
  sessions,
  counts,
}: Pick<GroupCounts, "sessions" | "counts">): HowSurePlan {
  const from = Math.max(0, sessions.length - newest);
  const marks: number[] = [];
  let on = 0;
  let all = 0;
  for (const { self } of counts) {
    for (let at = from; at < sessions.length; at += 1) {
      const yes = self.on[at] ?? 0;
      const sum = yes + (self.off[at] ?? 0);
      if (sum === 0) continue;
      marks.push(sum);
      on += yes;
      all += sum;
    }
  }
  if (marks.length === 0) return withoutSessions;
  const measured = on / all;
  const rate = Math.round(20 * measured) / 20;
  return {
    plan: {
      cues: Math.round(median(marks)),
      rate: Math.min(rateBounds.upper, Math.max(rateBounds.lower, rate)),
    },
    measured,
  };
}

/** Whether the class's rate lies past those that figures are computed for. */
export const isCut = ({ plan, measured }: HowSurePlan): boolean =>
  measured !== null && Math.abs(Math.round(20 * measured) / 20 - plan.rate) > 1e-9;
