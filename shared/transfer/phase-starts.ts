import { type NamedPhase, writePhase } from "./phase-text.ts";

/** What a row of a file says of one day of a student; null for no phase. */
export interface PhasedDay {
  readonly student: string;
  /** `YYYY-MM-DD`. */
  readonly day: string;
  readonly phase: NamedPhase | null;
}

/** A phase with the first day on which a file names it. */
export type PhaseStart = NamedPhase & { readonly startsOn: string };

export interface PhaseStarts {
  /** Those that most students share, first day first. */
  readonly group: readonly PhaseStart[];
  /** Those of students whose days do not fit the group's, such as one who began later than the class. */
  readonly own: ReadonlyMap<string, readonly PhaseStart[]>;
}

/** Phases by day; null on days that come before the first one. */
type PhasedDays = ReadonlyMap<string, NamedPhase | null>;

/**
 * The phases that a file of sessions tells of: each starts on the first day of a run of days that name it.
 *
 * Students whose days never contradict one another, and together make no phase come and go more often than
 * one of them saw it, share their phases; the largest such circle gives the group's. A day without a
 * phase counts before a student's first one and says nothing later, because a phase lasts until the
 * next. Of several rows of one student and day the first counts.
 */
export function phaseStarts(rows: readonly PhasedDay[]): PhaseStarts {
  const circles: { students: string[]; days: PhasedDays }[] = [];
  for (const [student, days] of daysByStudent(rows)) {
    const circle = circles.find((each) => belongTogether(each.days, days));
    if (circle === undefined) circles.push({ students: [student], days });
    else {
      circle.students.push(student);
      circle.days = new Map([...circle.days, ...days]);
    }
  }
  const [largest, ...others] = circles.toSorted(
    (one, other) => other.students.length - one.students.length,
  );
  return {
    group: largest === undefined ? [] : startsIn(largest.days),
    own: new Map(
      others.flatMap(({ students, days }) =>
        students.map((student) => [student, startsIn(days)] as const),
      ),
    ),
  };
}

function daysByStudent(rows: readonly PhasedDay[]): Map<string, PhasedDays> {
  const found = new Map<string, PhasedDays>();
  for (const [student, own] of Map.groupBy(rows, (row) => row.student)) {
    const ordered = own.toSorted((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));
    const first = ordered.findIndex(({ phase }) => phase !== null);
    if (first < 0) continue;
    const days = new Map<string, NamedPhase | null>();
    ordered.forEach(({ day, phase }, at) => {
      if (!days.has(day) && (phase !== null || at < first)) days.set(day, phase);
    });
    found.set(student, days);
  }
  return found;
}

function belongTogether(one: PhasedDays, other: PhasedDays): boolean {
  for (const [day, phase] of other) {
    const there = one.get(day);
    if (there !== undefined && nameOf(there) !== nameOf(phase)) return false;
  }
  const together = runsByName(new Map([...one, ...other]));
  const alone = [runsByName(one), runsByName(other)];
  return [...together].every(([name, runs]) => alone.some((each) => (each.get(name) ?? 0) >= runs));
}

const nameOf = (phase: NamedPhase | null): string => (phase === null ? "" : writePhase(phase));

function runsByName(days: PhasedDays): Map<string, number> {
  const runs = new Map<string, number>();
  for (const [, phase] of runsIn(days)) {
    runs.set(nameOf(phase), (runs.get(nameOf(phase)) ?? 0) + 1);
  }
  return runs;
}

/** Each first day on which another phase is named than on the day before. */
function runsIn(days: PhasedDays): (readonly [day: string, phase: NamedPhase | null])[] {
  const ordered = [...days].sort(([a], [b]) => (a < b ? -1 : 1));
  return ordered.filter(
    ([, phase], at) => at === 0 || nameOf(phase) !== nameOf(ordered[at - 1]?.[1] ?? null),
  );
}

const startsIn = (days: PhasedDays): PhaseStart[] =>
  runsIn(days).flatMap(([startsOn, phase]) => (phase === null ? [] : [{ ...phase, startsOn }]));
