import type { AdviceDecision } from "../../../shared/advice/advice.ts";
import type { SessionListItem } from "../../../shared/api/sessions.ts";
import type { DayOff } from "../../../shared/calendar/timetable.ts";
import type { Phase } from "../../../shared/phase/phase.ts";
import type { GroupCounts } from "../../../shared/record/group-counts.ts";

/** After so many sessions in a row without a look at any record, one is owed; common practice, no source. */
export const sessionsWithoutCheck = 3;

type Listed = Pick<
  SessionListItem,
  | "kind"
  | "status"
  | "plan"
  | "cuesDelivered"
  | "studentsRecorded"
  | "studentsPresent"
  | "leftOutBecause"
>;

/** Whether the paper cards of a session are still to be typed in. */
export function awaitsCards(session: Listed): boolean {
  const { kind, status, plan, cuesDelivered, studentsRecorded, studentsPresent } = session;
  const { leftOutBecause } = session;
  return (
    kind === "seatwork" &&
    status === "ended" &&
    leftOutBecause === null &&
    plan.recording === "paper" &&
    cuesDelivered > 0 &&
    studentsRecorded < studentsPresent
  );
}

/** Whether the last sessions in which students recorded themselves went by without a spot check that saw anything. */
export function owesCheck({ sessions, checks }: Pick<GroupCounts, "sessions" | "checks">): boolean {
  const lately = sessions.filter(({ kind }) => kind === "seatwork").slice(-sessionsWithoutCheck);
  if (lately.length < sessionsWithoutCheck) return false;
  const ids = new Set(lately.map(({ id }) => id));
  return !checks.some(({ sessionId, seen }) => ids.has(sessionId) && seen !== "unseen");
}

/** The day off that a school-local day YYYY-MM-DD belongs to, or null. */
export function dayOffOn(daysOff: readonly DayOff[], day: string): DayOff | null {
  return daysOff.find(({ firstDay, lastDay }) => firstDay <= day && day <= lastDay) ?? null;
}

/** Advice that asks for a change; the others ask to go on. */
const changing: ReadonlySet<AdviceDecision> = new Set([
  "check-match",
  "step-back",
  "ask-what-changed",
  "look-at-work",
  "thin-cues",
  "end-cues-and-probe",
]);

const twoWeeksMs = 14 * 24 * 60 * 60 * 1000;

/**
 * Whether advice waits for a decision: it asks for a change, and none was made since the newest session
 * began. The end of two weeks is said once, and again after two more. Times are ms since 1970 UTC; null for
 * no session, or no decision.
 */
export function adviceAwaits(
  advice: AdviceDecision,
  newestSessionMs: number | null,
  lastDecisionMs: number | null,
): boolean {
  if (newestSessionMs === null) return false;
  if (advice === "two-weeks-over")
    return lastDecisionMs === null || lastDecisionMs < newestSessionMs - twoWeeksMs;
  if (!changing.has(advice)) return false;
  return lastDecisionMs === null || lastDecisionMs < newestSessionMs;
}

type ProbedPhase = Pick<Phase, "studentId" | "startsOn" | "probes">;

/**
 * Whether a probe was drawn for today and none was held. Only the phase that a group or student is in
 * counts: days drawn for one that was left early are let go.
 *
 * @param phases by first day
 */
export function awaitsProbe(
  phases: readonly ProbedPhase[],
  sessions: readonly Pick<GroupCounts["sessions"][number], "kind" | "day">[],
  today: string,
): boolean {
  if (sessions.some(({ kind, day }) => kind === "probe" && day === today)) return false;
  const present = new Map<string | null, ProbedPhase>();
  for (const phase of phases) if (phase.startsOn <= today) present.set(phase.studentId, phase);
  return [...present.values()].some(({ probes }) => probes?.days.includes(today) ?? false);
}

/** For whom a drawn change falls on a day: the whole group, and so many students by themselves. */
export interface DueChange {
  readonly whole: boolean;
  readonly students: number;
}

/**
 * Whom a program was drawn to begin with today, and whom it is to be taken away from. A drawn day that is let
 * pass is a day that was chosen.
 */
export function drawnChanges(
  phases: readonly Pick<Phase, "studentId" | "startsOn" | "draw" | "kind">[],
  today: string,
): { readonly begins: DueChange; readonly ends: DueChange } {
  const due = phases.filter(({ draw, startsOn }) => draw !== null && startsOn === today);
  const of = (isBaseline: boolean): DueChange => {
    const those = due.filter(({ kind }) => (kind === "baseline") === isBaseline);
    return {
      whole: those.some(({ studentId }) => studentId === null),
      students: new Set(those.flatMap(({ studentId }) => studentId ?? [])).size,
    };
  };
  return { begins: of(false), ends: of(true) };
}
