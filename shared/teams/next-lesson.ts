import type { PairLesson } from "./kept.ts";
import { type TutoringRound, tutoringRounds, withoutAbsent } from "./pairs.ts";

/** A lesson's pairs: who teaches first, who is taught, and who is left over and joins a pair. */
export interface LessonPairs {
  readonly pairs: readonly { readonly teacher: string; readonly learner: string }[];
  readonly out: string | null;
}

/** Beside two who differ by so much in teaching, the one who taught less teaches. */
const turnAt = 3;

/**
 * The pairs of a group's next lesson: of the rounds of the circle the one whose pairs have met least so far,
 * the earliest among equals. So without any change the rounds follow each other in order; a new student, or
 * a day on which somebody was absent, only changes which is next. Absent students are left out and those left
 * over are paired again; roles turn where one has taught far more than the other.
 *
 * Example: nextLesson(["a", "b", "c", "d"], [], new Set()).pairs.length // 2
 *
 * @param students all in use, in the roster's order
 * @param lessons those that were held, in any order
 * @returns null where fewer than two are here
 */
export function nextLesson(
  students: readonly string[],
  lessons: readonly PairLesson[],
  absent: ReadonlySet<string>,
): LessonPairs | null {
  const here = students.filter((id) => !absent.has(id));
  if (here.length < 2) return null;
  const history = historyOf(lessons);
  const place = (student: number) => students[student] ?? "";
  const rounds = tutoringRounds(students.length);
  const cost = ({ pairs, out }: TutoringRound) =>
    pairs.reduce(
      (sum, { teacher, learner }) => sum + history.met(place(teacher), place(learner)),
      out === null ? 0 : history.satOut(place(out)),
    );
  const least = Math.min(...rounds.map(cost));
  const round = rounds.find((each) => cost(each) === least);
  if (round === undefined) return null;
  const gone = new Set(students.flatMap((id, at) => (absent.has(id) ? [at] : [])));
  const taught = new Map(students.map((id, at) => [at, history.balance(id)]));
  const today = withoutAbsent(round, gone, taught);
  return {
    pairs: today.pairs.map(({ teacher, learner }) => {
      const [first, second] = [place(teacher), place(learner)];
      const isTurned = history.balance(first) - history.balance(second) >= turnAt;
      return isTurned ? { teacher: second, learner: first } : { teacher: first, learner: second };
    }),
    out: today.out === null ? null : place(today.out),
  };
}

/** How often two have met, how often each sat out, and times taught less times learned. */
function historyOf(lessons: readonly PairLesson[]) {
  const met = new Map<string, number>();
  const out = new Map<string, number>();
  const balance = new Map<string, number>();
  const add = (map: Map<string, number>, key: string, by = 1) =>
    map.set(key, (map.get(key) ?? 0) + by);
  const keyOf = (one: string, other: string) => [one, other].sort().join(" ");
  for (const { parts } of lessons) {
    for (const { studentId, pair, taught } of parts) {
      if (pair === null) add(out, studentId);
      else add(balance, studentId, taught ? 1 : -1);
    }
    for (const teacher of parts.filter(({ taught }) => taught)) {
      const learner = parts.find(({ pair, taught }) => pair === teacher.pair && !taught);
      if (learner !== undefined) add(met, keyOf(teacher.studentId, learner.studentId));
    }
  }
  return {
    met: (one: string, other: string) => met.get(keyOf(one, other)) ?? 0,
    satOut: (id: string) => out.get(id) ?? 0,
    balance: (id: string) => balance.get(id) ?? 0,
  };
}
