import { designEffect } from "../analysis/dispersion.ts";
import type { GroupCounts } from "../record/group-counts.ts";
import type { Counts } from "../record/session-count.ts";
import type { Recorder } from "./income.ts";
import { medianOf } from "./median.ts";

/** Sessions that a student's figures rest on, and the fewest for figures of their own. */
const newest = 10;
const fewest = 3;
/** The fewest compared checks from which a student's share of matches says anything. Common practice, no source. */
const fewestChecks = 10;
/** School days from which the sessions of a day are counted. */
const daysCounted = 10;
/** What is supposed of a group that never recorded anything. Common practice, no source. */
const unknown = { onTask: 0.6, answers: 0.9, matching: 0.85 };

/** How one student records, for the price planner. */
export interface StudentRecorder {
  readonly studentId: string;
  readonly recorder: Recorder;
  /** False where the group's lower quartile stands for a student with too few sessions. */
  readonly own: boolean;
}

/**
 * How each student of a group records, by the newest ten sessions with marks, and sessions of a day as the
 * median of the last ten days with seatwork. Students with fewer than three sessions get the group's lower
 * quartile of both figures; all share one design effect. Items are the mean of the newest ten seatwork
 * sessions whose work was written down, the group's lower quartile for fewer than three, none for none. The
 * share of checked marks that match is the student's own over ten seatwork sessions from ten compared checks
 * on, before that the group's lower quartile.
 *
 * Example: recordersOf(counts, 0.2).sessions // 3
 *
 * @param checked share of cues that are checked, 0 to 1
 */
export function recordersOf(
  counts: Pick<GroupCounts, "sessions" | "counts" | "students" | "work" | "checks">,
  checked: number,
): { readonly students: readonly StudentRecorder[]; readonly sessions: number } {
  const sessionsOf = new Map(
    counts.counts.map(({ studentId, self }) => [
      studentId,
      self.on
        .flatMap((on, at): Counts[] => {
          const [off, missing] = [self.off[at] ?? 0, self.missing[at] ?? 0];
          return on === null || on + off === 0 ? [] : [{ on, off, missing }];
        })
        .slice(-newest),
    ]),
  );
  const known = [...sessionsOf.values()].filter((sessions) => sessions.length >= fewest);
  const figures = known.map(figuresOf);
  const low = {
    onTask: lowerQuartile(figures.map(({ onTask }) => onTask)) ?? unknown.onTask,
    answers: lowerQuartile(figures.map(({ answers }) => answers)) ?? unknown.answers,
  };
  const spread = known.length === 0 ? 1 : designEffect(known).designEffect;
  const itemsOf = itemsCompleted(counts);
  const lowItems = lowerQuartile([...itemsOf.values()]) ?? 0;
  const matchOf = ownMatches(counts);
  const lowMatch = lowerQuartile([...matchOf.values()]) ?? unknown.matching;
  const students = counts.students.map(({ id }) => {
    const sessions = sessionsOf.get(id) ?? [];
    const own = sessions.length >= fewest;
    const figure = own ? figuresOf(sessions) : low;
    const items = itemsOf.get(id) ?? lowItems;
    const matching = matchOf.get(id) ?? lowMatch;
    return {
      studentId: id,
      own,
      recorder: { ...figure, checked, matching, designEffect: spread, items },
    };
  });
  return { students, sessions: sessionsADay(counts) };
}

/** Share of compared checks that match, of each student with enough of them lately. */
function ownMatches({
  sessions,
  checks,
}: Pick<GroupCounts, "sessions" | "checks">): ReadonlyMap<string, number> {
  const seatwork = sessions.filter(({ kind }) => kind === "seatwork");
  const lately = new Set(seatwork.slice(-newest).map(({ id }) => id));
  const compared = new Map<string, { all: number; alike: number }>();
  for (const { studentId, sessionId, student, seen } of checks) {
    if (!lately.has(sessionId) || student === "none" || seen === "unseen") continue;
    const { all, alike } = compared.get(studentId) ?? { all: 0, alike: 0 };
    compared.set(studentId, { all: all + 1, alike: alike + Number(student === seen) });
  }
  return new Map(
    [...compared].flatMap(([id, { all, alike }]) =>
      all < fewestChecks ? [] : [[id, alike / all] as const],
    ),
  );
}

/** Items that each student with enough such sessions completes in one, on average. */
function itemsCompleted({
  sessions,
  work,
}: Pick<GroupCounts, "sessions" | "work">): ReadonlyMap<string, number> {
  const order = new Map(
    sessions.filter(({ kind }) => kind === "seatwork").map(({ id }, at) => [id, at]),
  );
  const done = new Map<string, { readonly at: number; readonly completed: number }[]>();
  for (const { studentId, sessionId, completed } of work) {
    const at = order.get(sessionId);
    if (at !== undefined) done.set(studentId, [...(done.get(studentId) ?? []), { at, completed }]);
  }
  return new Map(
    [...done].flatMap(([studentId, each]) => {
      if (each.length < fewest) return [];
      const lately = each.sort((one, other) => one.at - other.at).slice(-newest);
      const sum = lately.reduce((total, { completed }) => total + completed, 0);
      return [[studentId, sum / lately.length] as const];
    }),
  );
}

function figuresOf(sessions: readonly Counts[]): Pick<Recorder, "onTask" | "answers"> {
  let [on, off, missing] = [0, 0, 0];
  for (const each of sessions) {
    on += each.on;
    off += each.off;
    missing += each.missing;
  }
  return { onTask: on / (on + off), answers: (on + off) / (on + off + missing) };
}

function lowerQuartile(values: readonly number[]): number | null {
  const sorted = [...values].sort((first, second) => first - second);
  return sorted[Math.floor((sorted.length - 1) / 4)] ?? null;
}

/**
 * Seatwork sessions of a day: the median of the last ten days with any, at least 1.
 *
 * Example: sessionsADay({ sessions: [] }) // 1
 */
export function sessionsADay({ sessions }: Pick<GroupCounts, "sessions">): number {
  const days = new Map<string, number>();
  for (const { kind, day } of sessions) {
    if (kind === "seatwork") days.set(day, (days.get(day) ?? 0) + 1);
  }
  const last = [...days.entries()].sort(([one], [other]) => (one < other ? -1 : 1));
  const lately = last.slice(-daysCounted).map(([, count]) => count);
  return lately.length === 0 ? 1 : Math.max(1, Math.floor(medianOf(lately)));
}
