import { and, asc, inArray, ne } from "drizzle-orm";
import type { Connection } from "./connection.ts";
import { student } from "./tables.ts";

type Row = typeof student.$inferSelect;

/** Stretches of time that students were in groups which they have left. */
export function studentStays({ bare, typed }: Connection) {
  const movedIds = bare
    .prepare<[string], number>("SELECT DISTINCT student_number FROM stay WHERE group_id = ?")
    .pluck();
  const staysOf = bare.prepare<[string], { groupId: string; fromMs: number; untilMs: number }>(
    `SELECT group_id AS groupId, from_ms AS fromMs, until_ms AS untilMs FROM stay
     WHERE student_number = (SELECT number FROM student WHERE id = ?) ORDER BY from_ms`,
  );
  const leave = bare.prepare<[{ id: string; now: number }]>(
    `INSERT INTO stay (student_number, group_id, from_ms, until_ms)
     SELECT number, group_id, min(ifnull(joined_ms, created_ms), @now), @now
     FROM student WHERE id = @id`,
  );

  return {
    /** The groups a student was in before, the first first, and since when they were left; ms since 1970 UTC. */
    of: (id: string): { groupId: string; fromMs: number; untilMs: number }[] => staysOf.all(id),

    /** Notes that a student leaves the present group now. */
    end: (id: string, nowMs: number): void => void leave.run({ id, now: Math.round(nowMs) }),

    /** Who was in a group once and is in another now. */
    movedAway(groupId: string): Row[] {
      const numbers = movedIds.all(groupId);
      if (numbers.length === 0) return [];
      return typed
        .select()
        .from(student)
        .where(and(inArray(student.number, numbers), ne(student.groupId, groupId)))
        .orderBy(asc(student.number))
        .all();
    },
  };
}
