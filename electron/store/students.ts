import { and, asc, eq, isNotNull, isNull, max, type SQL, sql } from "drizzle-orm";
import type { Student } from "../../shared/roster/roster.ts";
import type { Connection } from "./connection.ts";
import { inTransaction } from "./file/in-transaction.ts";
import { newId } from "./new-id.ts";
import { studentStays } from "./student-stays.ts";
import { student } from "./tables.ts";

export type StudentChange = Partial<Pick<Student, "name" | "picture" | "target" | "holdGoal">>;

/** The people who self-record. */
export function studentRepository({ bare, typed }: Connection) {
  // A session that runs asks for its students with every mark, so these are built once.
  const one = typed
    .select()
    .from(student)
    .where(eq(student.id, sql.placeholder("id")))
    .prepare();
  const inOrder = (shown?: SQL) =>
    typed
      .select()
      .from(student)
      .where(and(eq(student.groupId, sql.placeholder("groupId")), shown))
      .orderBy(asc(student.position), asc(student.id))
      .prepare();
  const inUse = inOrder(isNull(student.archivedMs));
  const archivedOnes = inOrder(isNotNull(student.archivedMs));
  const everybody = inOrder();

  function get(id: string): Student | null {
    const row = one.get({ id });
    return row === undefined ? null : toStudent(row);
  }

  const stays = studentStays({ bare, typed });

  function lastIn(groupId: string): { readonly position: number } {
    const last = typed
      .select({ position: max(student.position) })
      .from(student)
      .where(eq(student.groupId, groupId))
      .get();
    return { position: last?.position ?? 0 };
  }

  return {
    get,

    /** In the teacher's order: the students in use, or the archived ones. */
    list: (groupId: string, archived: boolean): Student[] =>
      (archived ? archivedOnes : inUse).all({ groupId }).map(toStudent),

    /**
     * In the teacher's order, archived ones included. Who has moved to another group comes last, as one
     * archived in this group: its sessions of that time are theirs too.
     */
    listAll: (groupId: string): Student[] => [
      ...everybody.all({ groupId }).map(toStudent),
      ...stays.movedAway(groupId).map((row) => ({ ...toStudent(row), groupId, archived: true })),
    ],

    stays: stays.of,

    /** Puts a student at the end of another group's list; the group that is left keeps what was there. */
    move(id: string, groupId: string, nowMs: number): void {
      const { position } = lastIn(groupId);
      inTransaction(bare, () => {
        stays.end(id, nowMs);
        typed
          .update(student)
          .set({ groupId, position: position + 1, joinedMs: Math.round(nowMs) })
          .where(eq(student.id, id))
          .run();
      });
    },

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
        const from = lastIn(groupId).position + 1;
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

function toStudent(row: Row): Student {
  const { id, groupId, name, picture, target, holdGoal, joinedMs, archivedMs } = row;
  const hasMoved = joinedMs !== null;
  return { id, groupId, name, picture, target, holdGoal, hasMoved, archived: archivedMs !== null };
}
