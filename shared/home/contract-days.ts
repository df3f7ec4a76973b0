import type { GroupCounts } from "../record/group-counts.ts";
import { type ContractDay, contractOutcome } from "./contract.ts";
import type { ContractGoal } from "./contract-terms.ts";

/** The part of a group's counts that tells of contracts. */
export type ContractCounts = Pick<GroupCounts, "sessions" | "counts" | "checks" | "work">;

/** One day's seatwork of one student, as one goal measures it. */
export interface DayOfRecord extends ContractDay {
  readonly day: string;
}

/** So many sessions back a goal is tried on while it is written. */
export const sessionsTried = 10;

/**
 * The days on which a student took part in seatwork, oldest first, each with what a goal asks for: own marks,
 * what an adult saw at the spot checks, or work done. A session in which nobody counted what was correct
 * leaves its day without that count.
 *
 * @param most only so many of the student's newest sessions; all when left out
 *
 * Example: contractDays({ sessions: [], counts: [], checks: [], work: [] }, "0190…", { kind: "rate", rate: 0.8, measure: "self" }) // []
 */
export function contractDays(
  counts: ContractCounts,
  studentId: string,
  goal: ContractGoal,
  most = Number.POSITIVE_INFINITY,
): DayOfRecord[] {
  const own = counts.counts.find((each) => each.studentId === studentId)?.self;
  const attended = counts.sessions.flatMap(({ id, kind, day }, at) => {
    const [on = null, off = null, missing = null] = [own?.on[at], own?.off[at], own?.missing[at]];
    if (kind !== "seatwork" || on === null || off === null || missing === null) return [];
    return [{ id, day, on, off, missing }];
  });
  const newest = attended.slice(Math.max(0, attended.length - most));
  const byDay = Map.groupBy(newest, ({ day }) => day);
  return [...byDay].map(([day, sessions]) => {
    const ids = new Set(sessions.map(({ id }) => id));
    return {
      day,
      ...marksOf(counts, studentId, goal, sessions),
      work: workOf(counts, studentId, ids),
    };
  });
}

interface Attended {
  readonly id: string;
  readonly on: number;
  readonly off: number;
  readonly missing: number;
}

const sum = (values: readonly number[]): number => values.reduce((total, each) => total + each, 0);

function marksOf(
  { checks }: ContractCounts,
  studentId: string,
  goal: ContractGoal,
  sessions: readonly Attended[],
): Pick<ContractDay, "on" | "off" | "cues"> {
  if (goal.kind === "rate" && goal.measure === "adult") {
    const ids = new Set(sessions.map(({ id }) => id));
    const seen = checks.filter((each) => each.studentId === studentId && ids.has(each.sessionId));
    const on = seen.filter((each) => each.seen === "on").length;
    const off = seen.filter((each) => each.seen === "off").length;
    // An adult looks at some cues only; which were looked at is not the student's doing.
    return { on, off, cues: on + off };
  }
  const on = sum(sessions.map((each) => each.on));
  const off = sum(sessions.map((each) => each.off));
  return { on, off, cues: on + off + sum(sessions.map((each) => each.missing)) };
}

function workOf(
  { work }: ContractCounts,
  studentId: string,
  sessionIds: ReadonlySet<string>,
): ContractDay["work"] {
  const own = work.filter((each) => each.studentId === studentId && sessionIds.has(each.sessionId));
  if (own.length === 0) return null;
  const correct = own.map((each) => each.correct);
  return {
    assigned: sum(own.map((each) => each.assigned)),
    completed: sum(own.map((each) => each.completed)),
    correct: correct.some((each) => each === null) ? null : sum(correct.map((each) => each ?? 0)),
  };
}

/**
 * What a day's rate or completed share was, 0 to 1, as a goal measures it; null where the day has no data. Work of
 * which nobody counted what was correct still has its completed share: without it the days that a goal of correct
 * items leaves open would be missing, and those that fell short would not.
 *
 * Example: rateOfDay({ kind: "rate", rate: 0.8, measure: "self" }, { on: 6, off: 2, cues: 9, work: null }) // 0.75
 */
export function rateOfDay(goal: ContractGoal, day: ContractDay): number | null {
  const completedOnly = goal.kind === "work" ? { ...goal, correct: null } : goal;
  if (contractOutcome(completedOnly, day) === "no-data") return null;
  if (goal.kind === "rate") return day.on / (day.on + day.off);
  return day.work === null ? null : Math.min(1, day.work.completed / day.work.assigned);
}
