import { dayNumber } from "../../calendar/calendar.ts";
import type { PhaseKind } from "../../phase/phase.ts";
import type { SessionCount, Source } from "../../record/session-count.ts";
import { marked } from "../rate.ts";
import type { PhasePair, PhaseSeries } from "./phase-summary.ts";
import { phasePoints } from "./points-standard.ts";

/** A phase on the calendar: it lasts from its first local day until the next phase starts. */
export interface PhaseSpan {
  readonly kind: PhaseKind;
  readonly label: string;
  readonly startsOn: string;
}

/** The sessions that fell in one phase, of one student. */
export interface PhaseSessions {
  readonly kind: PhaseKind;
  readonly label: string;
  readonly sessions: readonly SessionCount[];
}

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

/** The rates of each phase by one source; sessions without a mark have no rate and are left out. */
export function seriesOf(phases: readonly PhaseSessions[], source: Source): PhaseSeries[] {
  return phases.map((phase) => seriesBy(phase, source));
}

/** A phase as one source saw it; `place` is the phase's place in the list that was given. */
export type PlacedSeries = PhaseSeries & { readonly place: number };

/** The series that are to be compared, in order of time, and which with which. */
export interface ComparedSeries {
  readonly series: readonly PlacedSeries[];
  readonly pairs: readonly PhasePair[];
}

/**
 * Each phase that has points beside the one after it, by one source wherever the record allows.
 *
 * Of two neighbours both are taken by one source when each has at least three points of it, the
 * observer's where both sources do. Otherwise each is taken by the source with more points, the
 * observer's when there are as many, and the comparison is across sources if these differ. Sources are
 * never mixed within a phase. So a single probe never stands for a month of self-records, and a
 * baseline that was observed before anybody recorded can still be compared.
 *
 * A phase may be compared by one source with the phase before it and by the other with the phase after
 * it; then it has a series of each, side by side. The fewest points are those of `pointsStandard`; the
 * order of preference is common practice, no source.
 */
export function comparedSeries(phases: readonly PhaseSessions[]): ComparedSeries {
  const held = phases.flatMap((phase, place) => {
    const self = { ...seriesBy(phase, "self"), place };
    const observer = { ...seriesBy(phase, "observer"), place };
    return self.points.length + observer.points.length === 0 ? [] : { self, observer };
  });
  const [first] = held;
  if (first === undefined) return { series: [], pairs: [] };
  if (held.length === 1) return { series: chooseSeries([first]), pairs: [] };

  const series: PlacedSeries[] = [];
  // Neighbouring comparisons share the series of the phase between them where its source is the same.
  const rowOf = (chosen: PlacedSeries | undefined): number => {
    if (chosen !== undefined && chosen !== series.at(-1)) series.push(chosen);
    return series.length - 1;
  };
  const pairs = held.slice(1).map((later, at) => {
    const [from, to] = chooseSeries([held[at] ?? first, later]);
    return { from: rowOf(from), to: rowOf(to) };
  });
  return { series, pairs };
}

/** One phase as both sources saw it. */
type BySource = Readonly<Record<Source, PlacedSeries>>;

function chooseSeries(phases: readonly BySource[]): PlacedSeries[] {
  const common = preferred.find((source) =>
    phases.every((phase) => phase[source].points.length >= phasePoints.fewest),
  );
  if (common !== undefined) return phases.map((phase) => phase[common]);
  return phases.map(({ self, observer }) =>
    self.points.length > observer.points.length ? self : observer,
  );
}

const preferred: readonly Source[] = ["observer", "self"];

function seriesBy({ kind, label, sessions }: PhaseSessions, source: Source): PhaseSeries {
  const points = sessions
    .filter((session) => session.source === source && marked(session) > 0)
    .sort((one, other) => one.startedAt - other.startedAt)
    .map(({ day, on, off }) => ({ day: dayNumber(day), value: on / (on + off) }));
  return { kind, label, source, points };
}
