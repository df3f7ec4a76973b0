import type { PlanSettings } from "../plan/plan.ts";
import { sessionSchedule } from "./session-schedule.ts";

/** One planned cue of one student. */
export interface OwnCue {
  readonly studentId: string;
  /** The student's own number of it, from 1, as on their printed key. */
  readonly cue: number;
  /** Seconds from the start of the session, in whole milliseconds. */
  readonly seconds: number;
}

/**
 * Everybody's own cues of one session, merged in the order in which they come. Each student's are those of
 * their printed key: drawn from the stream `cues/ID` of the session's seed, so they are the same whoever
 * else is there. Cues of one moment come in the order of the students.
 *
 * Student and own number name a cue, here and in the log: a student who comes later, or is erased, shifts
 * nobody's numbers.
 *
 * @param studentIds none twice
 * @throws RangeError when the plan cannot be run; `checkPlan` tells beforehand.
 *
 * Example: ownSchedule(firstPlan, "abc", []).length // 0
 */
export function ownSchedule(
  plan: PlanSettings,
  seed: string,
  studentIds: readonly string[],
): OwnCue[] {
  return studentIds
    .flatMap((studentId) =>
      sessionSchedule(plan, seed, { studentId }).cues.map(
        (seconds, index): OwnCue => ({ studentId, cue: index + 1, seconds }),
      ),
    )
    .sort((one, other) => one.seconds - other.seconds);
}
