import type { PhaseKind } from "../../phase/phase.ts";
import { dayNumber } from "../calendar.ts";
import { marked } from "../rate.ts";
import type { SessionCount, Source } from "../types.ts";
import type { PhaseSeries } from "./phase-summary.ts";

/** A phase on the calendar: it lasts from its first local day until the next phase starts. */
export type PhaseSpan = {
  readonly kind: PhaseKind;
  readonly label: string;
  readonly startsOn: string;
};

/** The sessions that fell in one phase, of one student. */
export type PhaseSessions = {
  readonly kind: PhaseKind;
  readonly label: string;
  readonly sessions: readonly SessionCount[];
};

/**
 * Puts sessions into the phases they fell in, by local day. Spans may come in any order; sessions before
 * the first are in no phase and left out. Of two spans that start on one day the later in the list wins.
 */
export function splitIntoPhases(
  spans: readonly PhaseSpan[],
  sessions: readonly SessionCount[],
): PhaseSessions[] {
  const ordered = [...spans].sort((a, b) => dayNumber(a.startsOn) - dayNumber(b.startsOn));
  return ordered.map(({ kind, label, startsOn }, i) => {
    const next = ordered[i + 1]?.startsOn;
    // Days written YYYY-MM-DD sort as text.
    const within = ({ day }: SessionCount) => day >= startsOn && (next === undefined || day < next);
    return { kind, label, sessions: sessions.filter(within) };
  });
}

/**
 * The rates of each phase by one source; sessions without a mark have no rate and are left out.
 *
 * `observer-first` takes the observer's sessions where a phase has any and self-records where it has
 * none, as when a baseline was observed before anybody recorded. Sources are never mixed within a phase,
 * each phase says which it has, and a comparison across sources is marked.
 */
export function seriesOf(
  phases: readonly PhaseSessions[],
  source: Source | "observer-first",
): PhaseSeries[] {
  return phases.map(({ kind, label, sessions }) => {
    const held = sessions.filter((session) => marked(session) > 0);
    const own = source === "observer-first" ? firstSource(held) : source;
    return { kind, label, source: own, points: pointsOf(held, own) };
  });
}

function firstSource(sessions: readonly SessionCount[]): Source {
  return sessions.some(({ source }) => source === "observer") ? "observer" : "self";
}

function pointsOf(sessions: readonly SessionCount[], own: Source) {
  return sessions
    .filter(({ source }) => source === own)
    .sort((one, other) => one.startedAt - other.startedAt)
    .map(({ day, on, off }) => ({ day: dayNumber(day), value: on / (on + off) }));
}
