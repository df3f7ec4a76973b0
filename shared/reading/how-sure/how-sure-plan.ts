import { dayNumber, mondayOf } from "../../calendar/calendar.ts";
import type { GroupCounts } from "../../record/group-counts.ts";
import { median } from "../../statistics/time-points.ts";

/** A class's own plan: answered cues of a session, its on-task rate, 0 to 1, and sessions in a school week. */
export interface OwnPlan {
  readonly cues: number;
  readonly rate: number;
  readonly perWeek: number;
}

/** The plan that the figures are computed for, and the rate of the class itself; null without a mark. */
export interface HowSurePlan {
  readonly plan: OwnPlan;
  readonly measured: number | null;
}

/** Newest sessions that show what a class's plan gives. */
const newest = 20;

/** Without a session yet: ten cues each school day, and a rate like that of many classes. */
const withoutSessions: HowSurePlan = {
  plan: { cues: 10, rate: 0.6, perWeek: 5 },
  measured: null,
};

/** More in a week are computed as so many: past two a day little changes, and it takes long. */
const mostPerWeek = 10;

/** Past these a rate leaves no room for a change of ten points either way. */
const rateBounds = { lower: 0.1, upper: 0.9 } as const;

/**
 * The plan that a class really has: the median of marks that a student makes in one of the newest 20
 * sessions, the on-task rate of all of them, rounded to five points and kept between 10 and 90 %, and the
 * median number of these sessions in the school weeks that have any, up to 10.
 *
 * Example: howSurePlan({ sessions: [], counts: [] }).plan // { cues: 10, rate: .6, perWeek: 5 }
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
      perWeek: perWeekOf(sessions.slice(from).map(({ day }) => day)),
    },
    measured,
  };
}

/** A week that is cut off on either side by the newest sessions counts only where no other is there. */
function perWeekOf(days: readonly string[]): number {
  const weeks = new Map<number, number>();
  for (const day of days) {
    const monday = mondayOf(dayNumber(day));
    weeks.set(monday, (weeks.get(monday) ?? 0) + 1);
  }
  const counts = [...weeks.values()];
  const whole = counts.length > 2 ? counts.slice(1, -1) : counts;
  return Math.min(mostPerWeek, Math.max(1, Math.round(median(whole))));
}

/** Whether the class's rate lies past those that figures are computed for. */
export const isCut = ({ plan, measured }: HowSurePlan): boolean =>
  measured !== null && Math.abs(Math.round(20 * measured) / 20 - plan.rate) > 1e-9;
