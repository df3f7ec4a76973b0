import { and, asc, eq, inArray } from "drizzle-orm";
import type { BetterSQLite3Database } from "drizzle-orm/better-sqlite3";
import type { PairLesson } from "../../../shared/teams/kept.ts";
import { pairLesson, pairPart } from "./tables.ts";

/**
 * Lessons of peer tutoring: who taught whom, and whose papers are corrected. `create` is to be called within a
 * transaction.
 */
export function pairLessonRepository(
  { typed }: { readonly typed: BetterSQLite3Database },
  newId: (nowMs: number) => string,
) {
  const partsOf = (lessonId: string): PairLesson["parts"] =>
    typed
      .select()
      .from(pairPart)
      .where(eq(pairPart.lessonId, lessonId))
      .orderBy(asc(pairPart.pair), asc(pairPart.studentId))
      .all()
      .map(({ lessonId: _lesson, ...part }) => part);

  const toLesson = ({ groupId: _group, ...facts }: typeof pairLesson.$inferSelect): PairLesson => ({
    ...facts,
    parts: partsOf(facts.id),
  });

  return {
    get(id: string): (PairLesson & { readonly groupId: string }) | null {
      const row = typed.select().from(pairLesson).where(eq(pairLesson.id, id)).get();
      return row === undefined ? null : { ...toLesson(row), groupId: row.groupId };
    },

    /** Oldest first. */
    list(groupId: string): PairLesson[] {
      return typed
        .select()
        .from(pairLesson)
        .where(eq(pairLesson.groupId, groupId))
        .orderBy(asc(pairLesson.day), asc(pairLesson.id))
        .all()
        .map(toLesson);
    },

    create(groupId: string, facts: Omit<PairLesson, "id">, nowMs: number): PairLesson {
      const id = newId(nowMs);
      const { day, points, parts } = facts;
      typed.insert(pairLesson).values({ id, groupId, day, points }).run();
      for (const part of parts)
        typed
          .insert(pairPart)
          .values({ ...part, lessonId: id })
          .run();
      return { id, ...facts };
    },

    setPoints(id: string, points: number): void {
      typed.update(pairLesson).set({ points }).where(eq(pairLesson.id, id)).run();
    },

    /** Says of these students whether their papers are corrected. */
    setCorrected(id: string, studentIds: readonly string[], corrected: boolean): void {
      typed
        .update(pairPart)
        .set({ corrected })
        .where(and(eq(pairPart.lessonId, id), inArray(pairPart.studentId, [...studentIds])))
        .run();
    },

    remove(id: string): void {
      typed.delete(pairLesson).where(eq(pairLesson.id, id)).run();
    },

    /** The lessons in which a student took part, oldest first. */
    ofStudent(studentId: string): {
      readonly day: string;
      readonly role: "taught" | "learned" | "joined";
      readonly corrected: boolean;
    }[] {
      return typed
        .select({
          day: pairLesson.day,
          pair: pairPart.pair,
          taught: pairPart.taught,
          corrected: pairPart.corrected,
        })
        .from(pairPart)
        .innerJoin(pairLesson, eq(pairLesson.id, pairPart.lessonId))
        .where(eq(pairPart.studentId, studentId))
        .orderBy(asc(pairLesson.day), asc(pairLesson.id))
        .all()
        .map(({ day, pair, taught, corrected }) => ({
          day,
          role: pair === null ? ("joined" as const) : taught ? "taught" : "learned",
          corrected,
        }));
    },
  };
}
export type PairLessons = ReturnType<typeof pairLessonRepository>;
