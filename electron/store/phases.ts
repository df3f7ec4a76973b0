import { asc, eq } from "drizzle-orm";
import type { Phase } from "../../shared/api/analysis.ts";
import type { Connection } from "./connection.ts";
import { newId } from "./new-id.ts";
import { phase } from "./tables.ts";

export type PhaseChange = Pick<Phase, "id" | "kind" | "label" | "startsOn" | "draw">;

/** Stretches of days under one condition; each lasts until the next one starts. */
export function phaseRepository({ typed }: Connection) {
  return {
    get(id: string): Phase | null {
      const row = typed.select().from(phase).where(eq(phase.id, id)).get();
      return row === undefined ? null : fromRow(row);
    },

    /** By first day; phases of single students are among them. */
    list(groupId: string): Phase[] {
      return typed
        .select()
        .from(phase)
        .where(eq(phase.groupId, groupId))
        .orderBy(asc(phase.startsOn), asc(phase.id))
        .all()
        .map(fromRow);
    },

    create(facts: Omit<Phase, "id">, nowMs: number): Phase {
      const made = { ...facts, id: newId(nowMs) };
      typed.insert(phase).values(toRow(made)).run();
      return made;
    },

    update({ id, ...change }: PhaseChange): void {
      typed.update(phase).set(toRow(change)).where(eq(phase.id, id)).run();
    },

    remove(id: string): void {
      typed.delete(phase).where(eq(phase.id, id)).run();
    },
  };
}
export type Phases = ReturnType<typeof phaseRepository>;

function fromRow({ drawnFrom, drawnTo, drawnSeed, ...rest }: typeof phase.$inferSelect): Phase {
  const isDrawn = drawnFrom !== null && drawnTo !== null && drawnSeed !== null;
  return { ...rest, draw: isDrawn ? { from: drawnFrom, to: drawnTo, seed: drawnSeed } : null };
}

/** A draw stands in three columns: all of them are filled, or none. */
function toRow<Facts extends Pick<Phase, "draw">>({ draw, ...rest }: Facts) {
  return {
    ...rest,
    drawnFrom: draw?.from ?? null,
    drawnTo: draw?.to ?? null,
    drawnSeed: draw?.seed ?? null,
  };
}
