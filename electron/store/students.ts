import { and, asc, eq, isNotNull, isNull, max } from "drizzle-orm";
import type { Student } from "../../shared/roster/roster.ts";
import { type Connection, inTransaction } from "./connection.ts";
import { newId } from "./new-id.ts";
import { student } from "./tables.ts";

export type StudentChange = Partial<Pick<Student, "name" | "picture" | "target">>;

/** The people who self-record. */
export function studentRepository({ bare, typed }: Connection) {
  function get(id: string): Student | null {
    const row = typed.select().from(student).where(eq(student.id, id)).get();
    return row === undefined ? null : toStudent(row);
  }

  function inOrder(groupId: string, archived: boolean | null): Student[] {
    const { archivedMs } = student;
    const shown = archived === null ? undefined : (archived ? isNotNull : isNull)(archivedMs);
    return typed
      .select()
      .from(student)
      .where(and(eq(student.groupId, groupId), shown))
      .orderBy(asc(student.position), asc(student.id))
      .all()
      .map(toStudent);
  }

  return {
    get,

    /** In the teacher's order: the students in use, or the archived ones. */
    list: (groupId: string, archived: boolean): Student[] => inOrder(groupId, archived),

    /** In the teacher's order, archived ones included. */
    listAll: (groupId: string): Student[] => inOrder(groupId, null),

    /**
     * One student a name, in the given order, after those who are there.
     *
     * @param importId the import that brought them, or null when they were added here
     */
    add(
      groupId: string,
      names: readonly string[],
      nowMs: number,
      importId: string | null = null,
    ): Student[] {
      return inTransaction(bare, () => {
        const last = typed
          .select({ position: max(student.position) })
          .from(student)
          .where(eq(student.groupId, groupId))
          .get();
        const from = (last?.position ?? 0) + 1;
        const rows = names.map((name, index) => ({
          id: newId(nowMs),
          groupId,
          name,
          picture: null,
          target: "",
          position: from + index,
          createdMs: Math.round(nowMs),
          archivedMs: null,
          importId,
          holdGoal: null,
          joinedMs: null,
        }));
        for (const row of rows) typed.insert(student).values(row).run();
        return rows.map(toStudent);
      });
    },

    update(id: string, change: StudentChange): void {
      if (Object.keys(change).length === 0) return;
      typed.update(student).set(change).where(eq(student.id, id)).run();
    },

    /** Archives at a wall-clock time in ms, or brings back with null. */
    setArchived(id: string, archivedMs: number | null): void {
      typed.update(student).set({ archivedMs }).where(eq(student.id, id)).run();
    },

    /** Puts the named students of a group in the order of `ids`. */
    reorder(groupId: string, ids: readonly string[]): void {
      inTransaction(bare, () => {
        ids.forEach((id, index) => {
          typed
            .update(student)
            .set({ position: index + 1 })
            .where(and(eq(student.id, id), eq(student.groupId, groupId)))
            .run();
        });
      });
    },
  };
}
export type Students = ReturnType<typeof studentRepository>;

type Row = Omit<typeof student.$inferSelect, "number">;

function toStudent({ id, groupId, name, picture, target, archivedMs }: Row): Student {
  return { id, groupId, name, picture, target, archived: archivedMs !== null };
}
