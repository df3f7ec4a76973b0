import { dayNumber, dayText } from "../../calendar/calendar.ts";
import { schoolDays } from "../../calendar/school-days.ts";
import type { DayOff } from "../../calendar/timetable.ts";
import type { Draw } from "../../phase/draw.ts";

/** Changes of a withdrawal design: the program begins, is taken away, and comes back to stay. */
export const withdrawalChanges = 3;

/** School days between two windows, so that every phase has five sessions where one is held a day. */
const between = 5;

/** Calendar days that are looked through for one school day; holidays may be long. */
const daysPerSchoolDay = 14;

export interface WithdrawalPlan {
  /** First day on which the program may begin. */
  readonly from: string;
  /** School days of each window. */
  readonly window: number;
  readonly seed: string;
  readonly daysOff: readonly DayOff[];
  readonly weekdays: readonly number[];
}

/**
 * Draws the days on which a program begins, is taken away and comes back, each from a window of school days of
 * its own with five school days between two windows. Empty where the calendar has too few school days.
 *
 * Source: see `withdrawalTest`. The same seed gives the same draw.
 *
 * Example: drawWithdrawal({ ...plan, window: 5 }).length // 3
 */
export function drawWithdrawal(plan: WithdrawalPlan): Omit<Draw, "times">[] {
  const { from, window, seed, daysOff, weekdays } = plan;
  const step = window + between;
  const wanted = withdrawalChanges * step - between;
  const to = dayText(dayNumber(from) + wanted * daysPerSchoolDay);
  const days = schoolDays({ from, to, daysOff, weekdays }).slice(0, wanted);
  if (days.length < wanted) return [];
  return Array.from({ length: withdrawalChanges }, (_, at) => {
    const own = days.slice(at * step, at * step + window);
    return { from: own[0] ?? from, to: own.at(-1) ?? from, seed: `${seed}${at + 1}`, days: own };
  });
}
