import { asc, eq } from "drizzle-orm";
import { z } from "zod";
import type { Phase } from "../../shared/phase/phase.ts";
import type { Connection } from "./connection.ts";
import { storedJson } from "./file/stored-json.ts";
import { newId } from "./new-id.ts";
import { phase } from "./tables.ts";

export type PhaseChange = Pick<Phase, "id" | "kind" | "label" | "startsOn" | "draw" | "probes">;

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

const daysSchema = z.array(z.iso.date());

function fromRow(row: typeof phase.$inferSelect): Phase {
  const { drawnFrom, drawnTo, drawnSeed, drawnDays, drawnTimes, ...others } = row;
  const { probeUntil, probeSeed, probeDays, ...facts } = others;
  const isDrawn = drawnFrom !== null && drawnTo !== null && drawnSeed !== null;
  const isProbed = probeUntil !== null && probeSeed !== null && probeDays !== null;
  return {
    ...facts,
    draw: isDrawn
      ? {
          from: drawnFrom,
          to: drawnTo,
          seed: drawnSeed,
          days: fromJson(drawnDays),
          times: drawnTimes ?? 1,
        }
      : null,
    probes: isProbed ? { until: probeUntil, seed: probeSeed, days: fromJson(probeDays) } : null,
  };
}

const fromJson = (days: string | null): string[] => storedJson(daysSchema, days ?? "[]");

/** Of the columns of a draw, and of those of probes, all are filled or none. */
function toRow<Facts extends Pick<Phase, "draw" | "probes">>({ draw, probes, ...rest }: Facts) {
  return {
    ...rest,
    drawnFrom: draw?.from ?? null,
    drawnTo: draw?.to ?? null,
    drawnSeed: draw?.seed ?? null,
    drawnDays: draw === null ? null : JSON.stringify(draw.days),
    drawnTimes: draw?.times ?? null,
    probeUntil: probes?.until ?? null,
    probeSeed: probes?.seed ?? null,
    probeDays: probes === null ? null : JSON.stringify(probes.days),
  };
}
