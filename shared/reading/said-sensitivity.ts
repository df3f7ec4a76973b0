import { type ChangeSensitivity, changeSensitivity, readingOf } from "../analysis/sensitivity.ts";
import { type PresentReading, sessionsBy } from "../analysis/statements/record-reading.ts";
import { trendStatement } from "../analysis/statements/trend-statement.ts";
import { weekStatement } from "../analysis/statements/week-statement.ts";
import type { SessionCount } from "../record/session-count.ts";

/** Whether missing marks could change what is said of the trend and of the week. */
export interface SaidSensitivity {
  readonly trend: ChangeSensitivity;
  readonly week: ChangeSensitivity;
}

/**
 * Reads the present phase again with its missing marks filled in by each supposition.
 *
 * Source: see `changeSensitivity`. Example: saidSensitivity(readPresent(null, []), []).trend.changes // false
 */
export function saidSensitivity(
  { phase, source, trend, week }: Omit<PresentReading, "recent">,
  sessions: readonly SessionCount[],
): SaidSensitivity {
  const since = sessionsBy(sessions, source).filter(
    ({ day }) => phase === null || day >= phase.startsOn,
  );
  const middle = since[since.length >> 1]?.day ?? "";
  return {
    trend: changeSensitivity(since, readingOf(trend), middle, (list) =>
      readingOf(trendStatement(list)),
    ),
    week: changeSensitivity(
      since,
      readingOf(week),
      week.kind === "enough" ? week.week : middle,
      (list) => readingOf(weekStatement(list)),
    ),
  };
}
