import type Database from "better-sqlite3";
import type { Term } from "../../../shared/calendar/timetable.ts";

/**
 * The school's terms.
 *
 * @param newId makes the id of a new one from its moment
 */
export function termRepository(bare: Database.Database, newId: (nowMs: number) => string) {
  const all = bare.prepare<[], Term>(
    "SELECT id, name, first_day AS firstDay, last_day AS lastDay FROM term ORDER BY first_day, id",
  );
  const insert = bare.prepare<[Term]>(
    "INSERT INTO term (id, name, first_day, last_day) VALUES (@id, @name, @firstDay, @lastDay)",
  );
  const remove = bare.prepare<[string]>("DELETE FROM term WHERE id = ?");
  return {
    /** By first day. */
    list: (): Term[] => all.all(),
    add(facts: Omit<Term, "id">, nowMs: number): Term {
      const term = { ...facts, id: newId(nowMs) };
      insert.run(term);
      return term;
    },
    /** False when there is none of this id. */
    remove: (id: string): boolean => remove.run(id).changes > 0,
  };
}
export type Terms = ReturnType<typeof termRepository>;
