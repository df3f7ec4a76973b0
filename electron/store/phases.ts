import { asc, eq } from "drizzle-orm";
import type { Phase } from "../../shared/api/analysis.ts";
import type { Connection } from "./connection.ts";
import { newId } from "./new-id.ts";
import { phase } from "./tables.ts";

export type PhaseChange = Pick<Phase, "id" | "kind" | "label" | "startsOn">;

/** Stretches of days under one condition; each lasts until the next one starts. */
export function phaseRepository({ typed }: Connection) {
  return {
    get(id: string): Phase | null {
      return typed.select().from(phase).where(eq(phase.id, id)).get() ?? null;
    },

    /** By first day; phases of single students are among them. */
    list(groupId: string): Phase[] {
      return typed
        .select()
        .from(phase)
        .where(eq(phase.groupId, groupId))
        .orderBy(asc(phase.startsOn), asc(phase.id))
        .all();
    },

    create(facts: Omit<Phase, "id">, nowMs: number): Phase {
      const made = { ...facts, id: newId(nowMs) };
      typed.insert(phase).values(made).run();
      return made;
    },

    update({ id, ...change }: PhaseChange): void {
      typed.update(phase).set(change).where(eq(phase.id, id)).run();
    },

    remove(id: string): void {
      typed.delete(phase).where(eq(phase.id, id)).run();
    },
  };
}
export type Phases = ReturnType<typeof phaseRepository>;
