import type { AdviceInputs } from "../advice/advice.ts";
import { lastPlace, rungAt } from "../advice/ladder.ts";
import { dayNumber } from "../calendar/calendar.ts";
import type { Source } from "../record/session-count.ts";
import type { Program } from "../roster/program.ts";
import type { AdviceMaterial, AdviceSession } from "./advice-material.ts";

/**
 * What the advice for a student or group is drawn from. Only sessions since the program came to its
 * place count; a place past the end of a ladder that was made shorter counts as its last.
 *
 * Past the last cue an observer's sessions judge, which are the probes. While students still keep a
 * record of their own, it judges until there is a probe.
 */
export function adviceInputs(material: AdviceMaterial, program: Program): AdviceInputs {
  const ladder = { cueSteps: program.stepMeansSeconds.length };
  const place = Math.min(program.place, lastPlace(ladder));
  const here = (session: AdviceSession) => isSince(session, program);
  const observed = material.observed.filter(here);
  const source = judgedBy(rungAt(ladder, place), observed.length);
  const sessions = source === "observer" ? observed : material.sessions.filter(here);
  return {
    ladder,
    place,
    goal: program.goal,
    sessions,
    daysHere: daysOver(sessions),
    source,
    agreement: material.recentAgreement,
    sessionsSinceCheck: material.sessionsSinceCheck,
    pointsPaid: program.pointsPaid,
    baseline: material.baseline,
    work: material.work,
  };
}

/** Days from the first session to the newest, both counted. */
function daysOver(sessions: readonly AdviceSession[]): number {
  const [first, newest] = [sessions[0], sessions.at(-1)];
  if (first === undefined || newest === undefined) return 0;
  return dayNumber(newest.day) - dayNumber(first.day) + 1;
}

/**
 * Whether a session was held since the program came to its place; sessions of the same day before the move
 * were held at another.
 *
 * Example: isSince({ day: "2026-03-09", startedAt: 0 }, program) // true for placeSince "2026-03-09"
 */
export function isSince(
  { day, startedAt }: Pick<AdviceSession, "day" | "startedAt">,
  { placeSince, placeSinceMs }: Program,
): boolean {
  return day >= placeSince && (placeSinceMs === null || startedAt >= placeSinceMs);
}

function judgedBy(rung: ReturnType<typeof rungAt>, observed: number): Source {
  if (rung === "probes" || rung === "own-praise") return "observer";
  return rung === "recording-without-cues" && observed > 0 ? "observer" : "self";
}
