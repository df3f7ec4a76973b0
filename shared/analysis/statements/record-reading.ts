import type { SessionCount, Source } from "../../record/session-count.ts";
import type { Result } from "../../statistics/result.ts";
import { comparedSeries, type PhaseSessions, type PhaseSpan } from "../phases/phase-series.ts";
import { presentSessions } from "../phases/present-trend.ts";
import { type Wanted, wantedOf } from "../phases/wanted.ts";
import { recentSessions } from "../recent.ts";
import { inOrder } from "../trend.ts";
import { type LastingFall, lastingFall } from "./lasting-fall.ts";
import { type PhaseStatement, phaseStatement } from "./phase-statement.ts";
import { type RateStatement, rateStatement } from "./rate-statement.ts";
import { type TrendStatement, trendStatement } from "./trend-statement.ts";
import {
  type WeekRateStatement,
  type WeekStatement,
  weekRateStatements,
  weekStatement,
} from "./week-statement.ts";

/** What is going on now: within the present phase, so that no line crosses from one phase to the next. */
export interface PresentReading<Trend = TrendStatement, Week = WeekStatement> {
  /** The present phase; null when none has begun. */
  readonly phase: PhaseSpan | null;
  /** The student's own records, or an observer's where these are too few; see `presentSessions`. */
  readonly source: Source;
  readonly trend: Result<Trend>;
  /** Over the newest sessions of the phase alone; null when these are all of it. */
  readonly recent: Result<Trend> | null;
  readonly week: Result<Week>;
}

/** Which two phases a statement compares, by their labels and their places in the list. */
export interface ComparedPhases {
  readonly from: string;
  readonly to: string;
  readonly places: readonly [from: number, to: number];
  readonly wanted: Wanted;
  /** One phase was observed and the other self-recorded: part of the change may be the recorder's. */
  readonly sourcesDiffer: boolean;
}

/** Everything that may be said of one record in a headline. */
export interface RecordReading extends PresentReading {
  readonly fall: LastingFall | null;
  readonly phases: readonly (ComparedPhases & Result<PhaseStatement>)[];
}

/**
 * What may be said of the present phase of a student.
 *
 * @param phase the phase in which today lies; null when none has begun
 *
 * Example: readPresent(null, []).trend // not-enough, "few-sessions"
 */
export function readPresent(
  phase: PhaseSpan | null,
  sessions: readonly SessionCount[],
): PresentReading & { readonly fall: LastingFall | null } {
  // Sessions without marks are left out there.
  const { source, held } = presentSessions(phase, sessions);
  return {
    phase,
    source,
    trend: trendStatement(held),
    recent: held.length > recentSessions ? trendStatement(held.slice(-recentSessions)) : null,
    week: weekStatement(held),
    fall: lastingFall(held),
  };
}

/** A pair of phases to compare, with the source by which each is taken. */
export interface PhasesToCompare {
  readonly compared: ComparedPhases;
  readonly sources: readonly [from: Source, to: Source];
}

/**
 * Which phases are compared with which, by which source: each with the one after it that has marks.
 *
 * Source: see `comparedSeries`. Example: phasesToCompare([]) // []
 */
export function phasesToCompare(phases: readonly PhaseSessions[]): PhasesToCompare[] {
  const { series, pairs } = comparedSeries(phases);
  return pairs.flatMap((pair) => {
    const [from, to] = [series[pair.from], series[pair.to]];
    if (from === undefined || to === undefined) return [];
    return {
      compared: {
        from: from.label,
        to: to.label,
        places: [from.place, to.place],
        wanted: wantedOf(from.kind, to.kind),
        sourcesDiffer: from.source !== to.source,
      },
      sources: [from.source, to.source],
    };
  });
}

/** Each phase of a student with the one after it. Example: readPhases([]) // [] */
export function readPhases(phases: readonly PhaseSessions[]): RecordReading["phases"] {
  return phasesToCompare(phases).map(({ compared, sources }) => {
    const [from, to] = compared.places.map((place, at) =>
      sessionsBy(phases[place]?.sessions ?? [], sources[at] ?? "self"),
    );
    return { ...compared, ...phaseStatement(from ?? [], to ?? [], compared.wanted) };
  });
}

/** Sessions of one source, oldest first. */
export const sessionsBy = (sessions: readonly SessionCount[], source: Source): SessionCount[] =>
  inOrder(sessions.filter((session) => session.source === source));

/** The rates of a record by one source, with intervals that hold where neighbours are alike. */
export interface RateReading {
  readonly overall: Result<RateStatement>;
  readonly phaseRates: readonly ({ readonly phase: string } & Result<RateStatement>)[];
  /** A week that two phases share is two entries. */
  readonly weekRates: readonly ({ readonly phase: string } & WeekRateStatement)[];
}

/**
 * Overall, phase and week rates of one source. Sessions in no phase are a stretch of their own, with the
 * label "".
 *
 * Example: readRates([], [], "self").overall // not-enough, "few-sessions"
 */
export function readRates(
  sessions: readonly SessionCount[],
  phases: readonly PhaseSessions[],
  source: Source,
): RateReading {
  const inPhase = new Set(phases.flatMap((phase) => phase.sessions));
  const outside = sessions.filter((session) => !inPhase.has(session));
  const inPhases = phases.map(({ label, sessions: held }) => ({
    label,
    held: sessionsBy(held, source),
  }));
  const stretches = [{ label: "", held: sessionsBy(outside, source) }, ...inPhases].filter(
    ({ held }) => held.length > 0,
  );
  return {
    overall: rateStatement(stretches.map(({ held }) => held)),
    phaseRates: inPhases.map(({ label, held }) => ({ phase: label, ...rateStatement([held]) })),
    weekRates: stretches.flatMap(({ label, held }) =>
      weekRateStatements(held).map((week) => ({ phase: label, ...week })),
    ),
  };
}
