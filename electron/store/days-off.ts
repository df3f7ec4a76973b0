import { asc, eq } from "drizzle-orm";
import type { DayOff } from "../../shared/calendar/timetable.ts";
import type { Connection } from "./connection.ts";
import { newId } from "./new-id.ts";
import { dayOff } from "./tables.ts";

/** The stretches of days on which the school is closed. */
export function dayOffRepository({ typed }: Connection) {
  return {
    /** By first day. */
    list(): DayOff[] {
      return typed.select().from(dayOff).orderBy(asc(dayOff.firstDay), asc(dayOff.id)).all();
    },

    create(facts: Omit<DayOff, "id">, nowMs: number): DayOff {
      const made = { ...facts, id: newId(nowMs) };
      typed.insert(dayOff).values(made).run();
      return made;
    },

    /** False when there is none of this id. */
    remove(id: string): boolean {
      return typed.delete(dayOff).where(eq(dayOff.id, id)).run().changes > 0;
    },
  };
}
export type DaysOff = ReturnType<typeof dayOffRepository>;
