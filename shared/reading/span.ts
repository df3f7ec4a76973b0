import { dayNumber, dayText } from "../calendar/calendar.ts";
import { dayNumbers, isApart, withinTerm } from "../calendar/days-off.ts";
import type { DayOff, Term } from "../calendar/timetable.ts";

/** A stretch of school-local days, both ends included. */
export interface Span {
  readonly first: string;
  readonly last: string;
}

export const spanChoices = ["all", "term", "month", "own"] as const;
export type SpanChoice = (typeof spanChoices)[number];

/**
 * A break longer than this, in days without a session, ends a term. Days off within a term do not count;
 * two weeks of holidays, written down or not, are more than it.
 */
const termBreakDays = 14;
const fourWeeks = 28;

/**
 * The days that a choice shows. `days` are those of all sessions, oldest first, and not empty; a term
 * is the school's own, in which the newest session was held, or else what was held since the last long
 * break. The month ends on the newest session's day, so that it
 * shows something in the holidays too.
 */
export function spanOf(
  choice: Exclude<SpanChoice, "own">,
  days: readonly string[],
  daysOff: readonly DayOff[],
  terms: readonly Pick<Term, "firstDay" | "lastDay">[],
): Span {
  const first = days[0] ?? "1970-01-01";
  const last = days.at(-1) ?? first;
  if (choice === "all") return { first, last };
  const own = terms.find(({ firstDay, lastDay }) => firstDay <= last && last <= lastDay);
  if (choice === "term" && own !== undefined) {
    return { first: laterDay(first, own.firstDay), last };
  }
  if (choice === "term") return { first: termStart(days, last, daysOff), last };
  const monthStart = dayNumber(last) - fourWeeks + 1;
  return { first: dayText(Math.max(dayNumber(first), monthStart)), last };
}

function termStart(days: readonly string[], last: string, daysOff: readonly DayOff[]): string {
  const off = dayNumbers(withinTerm(daysOff));
  let start = last;
  for (const day of days.toReversed()) {
    if (isApart(dayNumber(day), dayNumber(start), termBreakDays, off)) break;
    start = day;
  }
  return start;
}

export const isWithin = (day: string, { first, last }: Span): boolean =>
  day >= first && day <= last;

/** Days are text, and sort as text. */
export function laterDay(a: string, b: string): string {
  if (a > b) return a;
  return b;
}

export function earlierDay(a: string, b: string): string {
  if (a < b) return a;
  return b;
}
