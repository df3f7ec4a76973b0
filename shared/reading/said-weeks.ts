import { weekRateStatements } from "../analysis/statements/week-statement.ts";
import type { WeekRate } from "../analysis/weeks.ts";
import type { SessionCount } from "../record/session-count.ts";

/**
 * Weeks with the intervals that may be said of them: wide enough for alike neighbours.
 *
 * @param sessions those that the weeks were made from, oldest first
 *
 * Source: see `weekRateStatements`. Example: weeksAsSaid([], []) // []
 */
export function weeksAsSaid(
  weeks: readonly WeekRate[],
  sessions: readonly SessionCount[],
): WeekRate[] {
  const said = new Map(weekRateStatements(sessions).map((week) => [week.week, week.interval]));
  return weeks.map((week) => {
    const interval = said.get(week.start);
    return week.pooled.kind === "enough" && interval !== undefined
      ? { ...week, pooled: { ...week.pooled, interval } }
      : week;
  });
}
