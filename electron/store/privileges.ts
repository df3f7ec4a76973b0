import { and, asc, eq, gt, isNull, lt } from "drizzle-orm";
import type { ClassTimer } from "../../shared/roster/class-timer.ts";
import type { Privilege } from "../../shared/roster/privilege.ts";
import type { Connection } from "./connection.ts";
import { inTransaction } from "./file/in-transaction.ts";
import { newId } from "./new-id.ts";
import { periodsOf } from "./periods.ts";
import { classTimer, notFor, privilege } from "./tables.ts";

/** What points buy in a group, for whom a thing is not, and the timers of what lasts some minutes. */
export function privilegeRepository({ bare, typed }: Connection) {
  const notForOf = (privilegeId: string): string[] =>
    typed
      .select({ studentId: notFor.studentId })
      .from(notFor)
      .where(eq(notFor.privilegeId, privilegeId))
      .orderBy(asc(notFor.studentId))
      .all()
      .map(({ studentId }) => studentId);

  function toPrivilege(row: typeof privilege.$inferSelect): Privilege {
    const { archivedMs: _archived, position: _position, band, ...facts } = row;
    return { ...facts, band: band === 1 ? 1 : band === 2 ? 2 : 3, notFor: notForOf(row.id) };
  }

  function writeNotFor(privilegeId: string, studentIds: readonly string[]): void {
    typed.delete(notFor).where(eq(notFor.privilegeId, privilegeId)).run();
    for (const studentId of new Set(studentIds)) {
      typed.insert(notFor).values({ privilegeId, studentId }).run();
    }
  }

  return {
    ...periodsOf({ bare, typed }),

    /** Archived ones are found too: entries of the ledger name them. */
    get(id: string): Privilege | null {
      const row = typed.select().from(privilege).where(eq(privilege.id, id)).get();
      return row === undefined ? null : toPrivilege(row);
    },

    isArchived: (id: string): boolean =>
      typed.select().from(privilege).where(eq(privilege.id, id)).get()?.archivedMs != null,

    /** Those in use, in the teacher's order. */
    list(groupId: string): Privilege[] {
      return typed
        .select()
        .from(privilege)
        .where(and(eq(privilege.groupId, groupId), isNull(privilege.archivedMs)))
        .orderBy(asc(privilege.position), asc(privilege.id))
        .all()
        .map(toPrivilege);
    },

    create(facts: Omit<Privilege, "id">, nowMs: number): Privilege {
      return inTransaction(bare, () => {
        const { notFor: whom, ...own } = facts;
        const id = newId(nowMs);
        const position = typed.select().from(privilege).all().length + 1;
        typed
          .insert(privilege)
          .values({ ...own, id, position })
          .run();
        writeNotFor(id, whom);
        return { ...facts, id };
      });
    },

    update({ id, notFor: whom, groupId: _group, ...facts }: Privilege): void {
      inTransaction(bare, () => {
        typed.update(privilege).set(facts).where(eq(privilege.id, id)).run();
        writeNotFor(id, whom);
      });
    },

    archive(id: string, nowMs: number): void {
      typed
        .update(privilege)
        .set({ archivedMs: Math.round(nowMs) })
        .where(eq(privilege.id, id))
        .run();
    },

    /** Timers of a group that end after a moment, the next to end first. They name no student. */
    timers: (groupId: string, afterMs: number): ClassTimer[] =>
      typed
        .select()
        .from(classTimer)
        .where(and(eq(classTimer.groupId, groupId), gt(classTimer.endsMs, Math.round(afterMs))))
        .orderBy(asc(classTimer.endsMs), asc(classTimer.id))
        .all()
        .map(({ groupId: _group, ...timer }) => timer),

    /** Begins a timer, and forgets those that ended before a moment. */
    startTimer(
      { groupId, name, minutes }: { groupId: string; name: string; minutes: number },
      nowMs: number,
      forgetBeforeMs: number,
    ): void {
      typed
        .delete(classTimer)
        .where(lt(classTimer.endsMs, Math.round(forgetBeforeMs)))
        .run();
      const endsMs = Math.round(nowMs + minutes * 60_000);
      typed
        .insert(classTimer)
        .values({ id: newId(nowMs), groupId, name, minutes, endsMs })
        .run();
    },

    stopTimer(id: string): void {
      typed.delete(classTimer).where(eq(classTimer.id, id)).run();
    },
  };
}
export type Privileges = ReturnType<typeof privilegeRepository>;
