import { dayNumber, dayText } from "../../calendar/calendar.ts";
import { schoolDays } from "../../calendar/school-days.ts";
import type { DayOff } from "../../calendar/timetable.ts";
import type { Draw } from "../../phase/draw.ts";
import { randomStream } from "../../schedule/stream.ts";

/** Fewest and most students whose starts are drawn one after the other. */
export const staggerSize = { fewest: 3, most: 6 } as const;

/** School days from which one student's start is drawn. */
export const windowDays = { fewest: 3, usual: 5, most: 15 } as const;

export interface StaggerPlan {
  readonly studentIds: readonly string[];
  /** First day on which anybody may start. */
  readonly from: string;
  /** School days of each student's window. */
  readonly window: number;
  readonly seed: string;
  readonly daysOff: readonly DayOff[];
  readonly weekdays: readonly number[];
}

export interface StaggeredStart {
  readonly studentId: string;
  readonly draw: Omit<Draw, "times">;
}

/** Calendar days that are looked through for one school day; holidays may be long. */
const daysPerSchoolDay = 14;

/**
 * Draws who starts first and on which day: the students in a drawn order, each in a window of school days of
 * their own, one window after the other. Empty where the calendar has too few school days, or the students are
 * not three to six.
 *
 * Source: windows one after the other with a drawn order, Wampold BE, Worsham NL (1986), Behavioral Assessment
 * 8:135-143 (from memory). The same seed gives the same draw.
 *
 * Example: drawStagger({ ...plan, studentIds: [] }) // []
 */
export function drawStagger(plan: StaggerPlan): StaggeredStart[] {
  const { studentIds, from, window, seed } = plan;
  const wanted = studentIds.length * window;
  if (studentIds.length < staggerSize.fewest || studentIds.length > staggerSize.most) return [];
  const days = schoolDays({
    from,
    to: dayText(dayNumber(from) + wanted * daysPerSchoolDay),
    daysOff: plan.daysOff,
    weekdays: plan.weekdays,
  }).slice(0, wanted);
  if (days.length < wanted) return [];
  return inDrawnOrder(studentIds, seed).map((studentId, at) => {
    const own = days.slice(at * window, (at + 1) * window);
    return {
      studentId,
      // A seed of its own, so that anybody can draw this student's day again by itself.
      draw: { from: own[0] ?? from, to: own.at(-1) ?? from, seed: `${seed}${at + 1}`, days: own },
    };
  });
}

function inDrawnOrder(studentIds: readonly string[], seed: string): string[] {
  const draw = randomStream(seed, "stagger-order");
  const left = [...studentIds];
  const order: string[] = [];
  while (left.length > 0) {
    order.push(...left.splice(Math.floor(draw() * left.length), 1));
  }
  return order;
}
