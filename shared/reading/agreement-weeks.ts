import { type AgreementSummary, agreementBy } from "../agreement/agreement-summary.ts";
import { dayNumber, dayText, mondayOf } from "../calendar/calendar.ts";
import type { CheckPair } from "../record/group-counts.ts";
import { asPair } from "./as-pair.ts";

/** Agreement of one school week, by its Monday. */
export interface WeekAgreement {
  readonly monday: string;
  readonly summary: AgreementSummary;
}

/** A student's or a group's checks by school week, oldest first; weeks without checks are not listed. */
export function agreementByWeek(checks: readonly CheckPair[]): WeekAgreement[] {
  const pairs = checks.map((check) => ({
    ...asPair(check),
    monday: dayText(mondayOf(dayNumber(check.day))),
  }));
  return [...agreementBy(pairs, ({ monday }) => monday)]
    .map(([monday, summary]) => ({ monday, summary }))
    .sort((a, b) => (a.monday < b.monday ? -1 : 1));
}
