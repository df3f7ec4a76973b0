import type { Student } from "../../../shared/roster/roster.ts";
import type { PairLesson } from "../../../shared/teams/kept.ts";
import { useSay } from "../../text/text.tsx";

/** One line of a lesson: a pair, or who was left over and joined one. */
export interface LessonRow {
  readonly key: string;
  readonly studentIds: readonly string[];
  /** Who teaches first; null for who joined a pair. */
  readonly teacher: string | null;
  readonly learner: string;
  /** The same as a sentence. */
  readonly words: string;
  readonly corrected: boolean;
}

/** A lesson's pairs in order, and last who was left over; a student who was erased is a dash. */
export function useLessonRows(lesson: PairLesson, students: readonly Student[]): LessonRow[] {
  const say = useSay();
  const nameOf = (id: string | undefined) =>
    students.find((student) => student.id === id)?.name ?? "–";
  const numbers = [...new Set(lesson.parts.flatMap(({ pair }) => pair ?? []))];
  const rows = numbers
    .sort((one, other) => one - other)
    .map((number): LessonRow => {
      const parts = lesson.parts.filter(({ pair }) => pair === number);
      const teacher = nameOf(parts.find(({ taught }) => taught)?.studentId);
      const learner = nameOf(parts.find(({ taught }) => !taught)?.studentId);
      return {
        key: String(number),
        studentIds: parts.map(({ studentId }) => studentId),
        teacher,
        learner,
        words: say("pairs.pair", { teacher, learner }),
        corrected: parts.every(({ corrected }) => corrected),
      };
    });
  const left = lesson.parts.filter(({ pair }) => pair === null);
  return [
    ...rows,
    ...left.map(({ studentId, corrected }) => ({
      key: studentId,
      studentIds: [studentId],
      teacher: null,
      learner: nameOf(studentId),
      words: say("pairs.joined", { name: nameOf(studentId) }),
      corrected,
    })),
  ];
}
