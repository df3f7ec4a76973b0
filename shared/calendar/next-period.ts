/** A stretch of the school day that begins at a time; times are of the local clock, such as 09:30. */
export interface TimedPeriod {
  readonly name: string;
  readonly starts: string | null;
  readonly ends: string | null;
}

/** So long before a period begins, and after, somebody is reminded, in minutes; common practice, no source. */
export const reminder = { before: 5, after: 15 } as const;
/** A session begun so long before its period is this period's, in minutes; common practice, no source. */
const earlyMinutes = 15;

/**
 * A time of the local clock in minutes since midnight.
 *
 * Example: minutesOf("09:30") // 570
 */
export function minutesOf(time: string): number {
  const [hours = Number.NaN, minutes = Number.NaN] = time.split(":").map(Number);
  return 60 * hours + minutes;
}

/** Periods that have a beginning, in the order of the day. */
function inOrder<Period extends TimedPeriod>(periods: readonly Period[]) {
  return periods
    .flatMap((period) =>
      period.starts === null ? [] : [{ period, starts: minutesOf(period.starts) }],
    )
    .sort((a, b) => a.starts - b.starts)
    .map(({ period, starts }, at, all) => {
      const next = all[at + 1]?.starts ?? 24 * 60;
      const ends = period.ends === null ? Number.NaN : minutesOf(period.ends);
      return { period, starts, ends: ends > starts ? ends : next };
    });
}

/**
 * The period that comes next in a day, or that is going on without a session of its own.
 *
 * @param now minutes since midnight
 * @param held when today's sessions began, in minutes since midnight
 *
 * Example: nextPeriod([{ name: "Sums", starts: "09:30", ends: "10:00" }], 540, []).name // "Sums"
 */
export function nextPeriod<Period extends TimedPeriod>(
  periods: readonly Period[],
  now: number,
  held: readonly number[],
): Period | null {
  const coming = inOrder(periods).find(
    ({ starts, ends }) =>
      now < ends && !held.some((begun) => begun >= starts - earlyMinutes && begun < ends),
  );
  return coming?.period ?? null;
}

/**
 * The period of which to remind: it begins within five minutes, or began within the last fifteen, and no
 * session of its own was begun.
 *
 * @param now minutes since midnight
 * @param held when today's sessions began, in minutes since midnight
 *
 * Example: duePeriod([{ name: "Sums", starts: "09:30", ends: "10:00" }], 540, []) // null
 */
export function duePeriod<Period extends TimedPeriod>(
  periods: readonly Period[],
  now: number,
  held: readonly number[],
): Period | null {
  const next = nextPeriod(periods, now, held);
  if (next === null || next.starts === null) return null;
  const until = minutesOf(next.starts) - now;
  return until <= reminder.before && until > -reminder.after ? next : null;
}
