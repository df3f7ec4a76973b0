import { and, asc, eq, isNull } from "drizzle-orm";
import type { Plan } from "../../shared/api/plans.ts";
import { keptPlanSchema, planSettingsSchema } from "../../shared/plan/plan.ts";
import type { Connection } from "./connection.ts";
import { storedJson } from "./file/stored-json.ts";
import { newId } from "./new-id.ts";
import { plan } from "./tables.ts";

/** What a group's sessions will be like. */
export function planRepository({ typed }: Connection) {
  return {
    /** Archived plans are found too. */
    get(id: string): Plan | null {
      const row = typed.select().from(plan).where(eq(plan.id, id)).get();
      return row === undefined ? null : toPlan(row);
    },

    /** The plans in use, oldest first. */
    list(groupId: string): Plan[] {
      return typed
        .select()
        .from(plan)
        .where(and(eq(plan.groupId, groupId), isNull(plan.archivedMs)))
        .orderBy(asc(plan.createdMs), asc(plan.id))
        .all()
        .map(toPlan);
    },

    create(facts: Omit<Plan, "id">, nowMs: number): Plan {
      const id = newId(nowMs);
      const settings = planSettingsSchema.parse(facts.settings);
      typed
        .insert(plan)
        .values({
          ...facts,
          id,
          settings: JSON.stringify(settings),
          createdMs: Math.round(nowMs),
        })
        .run();
      return { ...facts, id, settings };
    },

    update({ id, name, settings }: Omit<Plan, "groupId">): void {
      const json = JSON.stringify(planSettingsSchema.parse(settings));
      typed.update(plan).set({ name, settings: json }).where(eq(plan.id, id)).run();
    },

    archive(id: string, nowMs: number): void {
      typed
        .update(plan)
        .set({ archivedMs: Math.round(nowMs) })
        .where(eq(plan.id, id))
        .run();
    },
  };
}
export type Plans = ReturnType<typeof planRepository>;

function toPlan({ id, groupId, name, settings }: typeof plan.$inferSelect): Plan {
  return { id, groupId, name, settings: storedJson(keptPlanSchema, settings) };
}
