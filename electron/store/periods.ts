import { asc, eq } from "drizzle-orm";
import type { GroupPeriod } from "../../shared/calendar/timetable.ts";
import type { Period } from "../../shared/roster/privilege.ts";
import type { Connection } from "./connection.ts";
import { inTransaction } from "./file/in-transaction.ts";
import { newId } from "./new-id.ts";
import { period } from "./tables.ts";

/** The named stretches of a group's day. */
export function periodsOf({ bare, typed }: Connection) {
  return {
    /** The named stretches of a group's day, in order. */
    periods(groupId: string): Period[] {
      return typed
        .select()
        .from(period)
        .where(eq(period.groupId, groupId))
        .orderBy(asc(period.position))
        .all()
        .map(({ groupId: _group, position: _position, ...facts }) => facts);
    },

    /** The same of all groups. */
    allPeriods(): GroupPeriod[] {
      return typed
        .select()
        .from(period)
        .orderBy(asc(period.groupId), asc(period.position))
        .all()
        .map(({ position: _position, ...facts }) => facts);
    },

    /** Puts these in the place of all that were there. */
    savePeriods(groupId: string, periods: readonly Omit<Period, "id">[], nowMs: number): void {
      inTransaction(bare, () => {
        typed.delete(period).where(eq(period.groupId, groupId)).run();
        for (const [index, facts] of periods.entries()) {
          const row = { ...facts, id: newId(nowMs), groupId, position: index + 1 };
          typed.insert(period).values(row).run();
        }
      });
    },
  };
}
