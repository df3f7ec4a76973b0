import { asc, eq, getTableColumns, isNotNull, isNull, lte, max, sql } from "drizzle-orm";
import type { Group } from "../../shared/roster/roster.ts";
import type { Connection } from "./connection.ts";
import { inTransaction } from "./file/in-transaction.ts";
import { newId } from "./new-id.ts";
import { studentGroup } from "./tables.ts";

export interface NewGroup {
  readonly name: string;
  readonly target: string;
  readonly isSample: boolean;
}

/** Sets of students who work under one plan at a time. */
export function groupRepository({ bare, typed }: Connection) {
  const all = () =>
    typed
      .select({
        ...getTableColumns(studentGroup),
        studentCount: sql<number>`(SELECT count(*) FROM student
          WHERE group_id = student_group.id AND archived_ms IS NULL)`,
      })
      .from(studentGroup);

  function get(id: string): Group | null {
    const row = all().where(eq(studentGroup.id, id)).get();
    return row === undefined ? null : toGroup(row);
  }

  return {
    get,

    /** Wall clock at which the group was made, ms since 1970 UTC; null when there is no such group. */
    madeMs(id: string): number | null {
      return (
        typed
          .select({ createdMs: studentGroup.createdMs })
          .from(studentGroup)
          .where(eq(studentGroup.id, id))
          .get()?.createdMs ?? null
      );
    },

    /** In the teacher's order: the groups in use, or the archived ones. */
    list(archived: boolean): Group[] {
      const { archivedMs } = studentGroup;
      return all()
        .where(archived ? isNotNull(archivedMs) : isNull(archivedMs))
        .orderBy(asc(studentGroup.position), asc(studentGroup.id))
        .all()
        .map(toGroup);
    },

    /** The archived groups that were put there by a moment, ms since 1970 UTC, and when that was. */
    archivedBy(atMs: number): { id: string; name: string; archivedMs: number }[] {
      const { id, name, archivedMs } = studentGroup;
      return typed
        .select({ id, name, archivedMs })
        .from(studentGroup)
        .where(lte(archivedMs, Math.round(atMs)))
        .orderBy(asc(archivedMs), asc(id))
        .all()
        .flatMap((row) => (row.archivedMs === null ? [] : { ...row, archivedMs: row.archivedMs }));
    },

    /** The invented class, archived or not, or null. */
    sample(): Group | null {
      const row = all().where(eq(studentGroup.isSample, true)).get();
      return row === undefined ? null : toGroup(row);
    },

    create(facts: NewGroup, nowMs: number): Group {
      const id = newId(nowMs);
      const last = typed
        .select({ position: max(studentGroup.position) })
        .from(studentGroup)
        .get();
      const position = (last?.position ?? 0) + 1;
      typed
        .insert(studentGroup)
        .values({ ...facts, id, position, createdMs: Math.round(nowMs) })
        .run();
      return { ...facts, id, archived: false, studentCount: 0 };
    },

    update(id: string, change: { name?: string; target?: string }): void {
      if (Object.keys(change).length === 0) return;
      typed.update(studentGroup).set(change).where(eq(studentGroup.id, id)).run();
    },

    /** Archives at a wall-clock time in ms, or brings back with null. */
    setArchived(id: string, archivedMs: number | null): void {
      typed.update(studentGroup).set({ archivedMs }).where(eq(studentGroup.id, id)).run();
    },

    /** The weekdays on which each group sits, archived groups among them; 1 for Monday to 7 for Sunday. */
    timetable(): { groupId: string; weekdays: number[] }[] {
      const { id, weekdays } = studentGroup;
      return typed
        .select({ groupId: id, weekdays })
        .from(studentGroup)
        .orderBy(asc(studentGroup.position), asc(id))
        .all()
        .map((row) => ({ ...row, weekdays: [...row.weekdays].map(Number) }));
    },

    setWeekdays(id: string, weekdays: readonly number[]): void {
      typed
        .update(studentGroup)
        .set({ weekdays: weekdays.join("") })
        .where(eq(studentGroup.id, id))
        .run();
    },

    /** Puts the named groups in the order of `ids`. */
    reorder(ids: readonly string[]): void {
      inTransaction(bare, () => {
        ids.forEach((id, index) => {
          typed
            .update(studentGroup)
            .set({ position: index + 1 })
            .where(eq(studentGroup.id, id))
            .run();
        });
      });
    },
  };
}
export type Groups = ReturnType<typeof groupRepository>;

type Row = typeof studentGroup.$inferSelect & { studentCount: number };

function toGroup({ id, name, target, isSample, archivedMs, studentCount }: Row): Group {
  return { id, name, target, isSample, archived: archivedMs !== null, studentCount };
}
