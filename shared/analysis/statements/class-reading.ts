import { dayNumber } from "../../calendar/calendar.ts";
import type { SessionCount, Source } from "../../record/session-count.ts";
import { fractionalCriticalT } from "../../statistics/fractional-t.ts";
import { type Interval, notEnough, type Result } from "../../statistics/result.ts";
import { serialPrior } from "../../statistics/serial-least-squares.ts";
import type { PhaseSessions, PhaseSpan } from "../phases/phase-series.ts";
import { phasePoints } from "../phases/points-standard.ts";
import { presentSessions } from "../phases/present-trend.ts";
import { marked } from "../rate.ts";
import { recentSessions } from "../recent.ts";
import { fewestSessionsForTrend } from "../trend.ts";
import { weeksOf } from "../weeks.ts";
import { type ClassDifference, classDifference } from "./class-difference.ts";
import { type ClassTrendStatement, classTrend } from "./class-trend.ts";
import { heldOutcome, moved, type Outcome } from "./phase-statement.ts";
import { ratePoints } from "./points.ts";
import {
  type ComparedPhases,
  type PresentReading,
  phasesToCompare,
  sessionsBy,
} from "./record-reading.ts";
import { fitSlope } from "./slope.ts";

/** One student of a class, with the phases by which this student is read, in order of time. */
export interface ClassMember {
  readonly sessions: readonly SessionCount[];
  readonly phases: readonly PhaseSessions[];
}

export interface ClassWeekStatement extends ClassDifference {
  readonly week: string;
  readonly before: string;
  readonly weeksApart: number;
}

export interface ClassPhaseStatement extends ClassDifference {
  readonly outcome: Outcome;
}

/** What may be said of a class: how its students move, each measured against their own record. */
export interface ClassReading extends PresentReading<ClassTrendStatement, ClassWeekStatement> {
  readonly phases: readonly (ComparedPhases & Result<ClassPhaseStatement>)[];
}

/**
 * Reads a class by its students' own changes: nothing changes because some join, leave or stay away.
 *
 * A student whose phases are not the class's is read by their own: phases of one kind and label belong
 * together, the first with the first, the second with the second.
 *
 * @param phases the class's phases with the sessions added up over students, in order of time
 * @param together those sessions with all that are in no phase
 * @param phase the class's present phase; null when none has begun
 *
 * Source: see `classTrend`, `classDifference`. Example: readClass([], [], [], null).phases // []
 */
export function readClass(
  members: readonly ClassMember[],
  phases: readonly PhaseSessions[],
  together: readonly SessionCount[],
  phase: PhaseSpan | null,
): ClassReading {
  const { source } = presentSessions(phase, together);
  const place = phase === null ? -1 : phases.findLastIndex((each) => isSame(each, phase));
  const present = members.map(({ sessions, phases: own }) =>
    place < 0 ? sessionsBy(sessions, source) : sessionsOfPlace(own, phases, place, source),
  );
  return {
    phase,
    source,
    trend: classTrend(present),
    recent: recentTrend(present),
    week: classWeek(present),
    phases: phasesToCompare(phases).map(({ compared, sources }) => ({
      ...compared,
      ...classPhase(members, phases, compared, sources),
    })),
  };
}

/** How the class's students move within one of its phases; see `readClass` and `classTrend`. */
export const classPhaseTrend = (
  members: readonly ClassMember[],
  phases: readonly PhaseSessions[],
  place: number,
  source: Source,
): Result<ClassTrendStatement> =>
  classTrend(members.map((member) => sessionsOfPlace(member.phases, phases, place, source)));

type Named = Pick<PhaseSpan, "kind" | "label">;
const isSame = (a: Named, b: Named): boolean => a.kind === b.kind && a.label === b.label;

/** A student's sessions in the phase that answers to the class's at a place: the same one of its name. */
function sessionsOfPlace(
  own: readonly PhaseSessions[],
  phases: readonly PhaseSessions[],
  place: number,
  source: Source,
): SessionCount[] {
  const wanted = phases[place];
  if (wanted === undefined) return [];
  const before = phases.slice(0, place).filter((each) => isSame(each, wanted)).length;
  const found = own.filter((each) => isSame(each, wanted))[before];
  return found === undefined ? [] : sessionsBy(found.sessions, source);
}

/** The trend of the class's newest sessions; null when these are all of them. */
function recentTrend(
  students: readonly (readonly SessionCount[])[],
): Result<ClassTrendStatement> | null {
  const moments = new Set(
    students.flat().flatMap((session) => (marked(session) > 0 ? session.startedAt : [])),
  );
  const first = [...moments].sort((a, b) => a - b).at(-recentSessions);
  if (moments.size <= recentSessions || first === undefined) return null;
  return classTrend(students.map((held) => held.filter(({ startedAt }) => startedAt >= first)));
}

/** The newest week with marks of anybody against the one before it. */
function classWeek(students: readonly (readonly SessionCount[])[]): Result<ClassWeekStatement> {
  const all = students.flat().filter((session) => marked(session) > 0);
  const moments = new Set(all.map(({ startedAt }) => startedAt)).size;
  if (moments < fewestSessionsForTrend) {
    return notEnough("few-sessions", moments, fewestSessionsForTrend);
  }
  const weeks = weeksOf(all);
  const [before, week] = weeks.slice(-2);
  if (before === undefined || week === undefined) return notEnough("few-weeks", weeks.length, 2);
  const change = classDifference(
    students.map((sessions) => {
      const points = ratePoints(sessions);
      const line = fitSlope(points)?.fit;
      const inWeek = ({ start, end }: typeof week) =>
        points.filter(({ session: { day } }) => day >= start && day <= end);
      return {
        earlier: inWeek(before),
        later: inWeek(week),
        known: line ?? { r: serialPrior.correlation, phi: 1, degrees: 1 },
      };
    }),
  );
  if (change === null) return notEnough("few-weeks", 1, 2);
  const weeksApart = (dayNumber(week.start) - dayNumber(before.start)) / 7;
  return { kind: "enough", ...change, week: week.start, before: before.start, weeksApart };
}

function classPhase(
  members: readonly ClassMember[],
  phases: readonly PhaseSessions[],
  { places, wanted }: ComparedPhases,
  sources: readonly [Source, Source],
): Result<ClassPhaseStatement> {
  const held = places.map(
    (place, at) =>
      (phases[place]?.sessions ?? []).filter(
        (session) => session.source === sources[at] && marked(session) > 0,
      ).length,
  );
  const have = Math.min(...held);
  if (have < phasePoints.fewest) return notEnough("few-sessions", have, phasePoints.fewest);
  const change = classDifference(
    members.map(({ phases: own }) => ({
      earlier: ratePoints(sessionsOfPlace(own, phases, places[0], sources[0])),
      later: ratePoints(sessionsOfPlace(own, phases, places[1], sources[1])),
    })),
  );
  if (change === null) return notEnough("few-sessions", 0, phasePoints.fewest);
  return {
    kind: "enough",
    ...change,
    outcome: wanted === "held" ? heldOutcome(change, ninetyOf(change)) : moved(change, wanted),
  };
}

function ninetyOf({ points, standardError, degrees }: ClassDifference): Interval {
  const reach = fractionalCriticalT(0.9, degrees) * standardError;
  return { lower: points - reach, upper: points + reach };
}
