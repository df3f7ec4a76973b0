import { describe, expect, it } from "vitest";
import type { PairLesson } from "../../../../shared/teams/kept.ts";
import { nextLesson } from "../../../../shared/teams/next-lesson.ts";
import { tutoringRounds } from "../../../../shared/teams/pairs.ts";

const classOf = (students: number) => Array.from({ length: students }, (_, at) => `s${at}`);
const nobody: ReadonlySet<string> = new Set();

/** A lesson as it is kept. */
function held(students: readonly string[], lessons: readonly PairLesson[], absent = nobody) {
  const next = nextLesson(students, lessons, absent);
  if (next === null) throw new Error("There are no pairs");
  const parts = next.pairs.flatMap(({ teacher, learner }, at) => [
    { studentId: teacher, pair: at + 1, taught: true, corrected: false },
    { studentId: learner, pair: at + 1, taught: false, corrected: false },
  ]);
  const left =
    next.out === null ? [] : [{ studentId: next.out, pair: null, taught: false, corrected: false }];
  return { id: `l${lessons.length}`, day: "2026-03-02", points: 0, parts: [...parts, ...left] };
}

function term(
  students: readonly string[],
  lessons: number,
  absentAt: (lesson: number) => string[],
) {
  const all: PairLesson[] = [];
  for (let at = 0; at < lessons; at++) all.push(held(students, all, new Set(absentAt(at))));
  return all;
}

const meetings = (lessons: readonly PairLesson[]) => {
  const met = new Map<string, number>();
  for (const { parts } of lessons) {
    for (const one of parts.filter(({ taught }) => taught)) {
      const other = parts.find(({ pair, taught }) => pair === one.pair && !taught);
      const key = [one.studentId, other?.studentId].sort().join(" ");
      met.set(key, (met.get(key) ?? 0) + 1);
    }
  }
  return met;
};

// The circle method's own order, which pairs.test.ts holds to the facts of a one-factorization.
describe.each(Array.from({ length: 27 }, (_, at) => at + 4))("lessons of %i students", (count) => {
  it("follow the circle in order while nobody is absent, twice over", () => {
    const students = classOf(count);
    const rounds = tutoringRounds(count);
    const lessons = term(students, 2 * rounds.length, () => []);
    const asked = [...rounds, ...rounds].map(({ pairs }) =>
      pairs.map(({ teacher, learner }) => [`s${teacher}`, `s${learner}`]),
    );
    const found = lessons.map(({ parts }) =>
      [...new Set(parts.flatMap(({ pair }) => pair ?? []))].map((number) => {
        const own = parts.filter(({ pair }) => pair === number);
        return own.map(({ studentId }) => studentId);
      }),
    );
    // The second time roles may turn; the pairs are the same.
    expect(found.slice(0, rounds.length)).toEqual(asked.slice(0, rounds.length));
    const sorted = (pairs: string[][]) => pairs.map((pair) => pair.toSorted().join(" ")).sort();
    expect(found.map(sorted)).toEqual(asked.map(sorted));
  });

  it("teach and learn about as often when one after the other is absent", () => {
    const students = classOf(count);
    const lessons = term(students, 3 * count, (lesson) => [`s${(lesson * 5) % count}`]);
    const balance = new Map<string, number>();
    for (const { studentId, pair, taught } of lessons.flatMap(({ parts }) => parts)) {
      if (pair === null) continue;
      balance.set(studentId, (balance.get(studentId) ?? 0) + (taught ? 1 : -1));
    }
    // Fewest differences: the project's own limit, no source.
    expect(Math.max(...[...balance.values()].map(Math.abs))).toBeLessThanOrEqual(4);
  });
});

it("a new student meets the others first, and nobody meets twice before that", () => {
  const first = term(classOf(6), 3, () => []);
  const all = [...first];
  for (let at = 0; at < 7; at++) all.push(held(classOf(7), all));
  const withNew = [...meetings(all)].filter(([pair]) => pair.split(" ").includes("s6"));
  expect(withNew).toHaveLength(6);
});

it("absent students are in no pair, and one alone makes none", () => {
  const { parts } = held(classOf(8), [], new Set(["s0", "s3", "s5"]));
  expect(parts.map(({ studentId }) => studentId).sort()).toEqual(["s1", "s2", "s4", "s6", "s7"]);
  expect(nextLesson(classOf(3), [], new Set(["s0", "s1"]))).toBeNull();
});
