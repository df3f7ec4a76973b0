import { desc, eq, getTableColumns } from "drizzle-orm";
import type { Session } from "../../shared/api/sessions.ts";
import { planSettingsSchema } from "../../shared/plan/plan.ts";
import type { Connection } from "./connection.ts";
import { newId } from "./new-id.ts";
import { session, studentGroup } from "./tables.ts";

export type NewSession = Omit<Session, "id" | "groupName">;

/** The fixed facts of each session; what happened in it is in the session log. */
export function sessionRepository({ typed }: Connection) {
  const all = () =>
    typed
      .select({ ...getTableColumns(session), groupName: studentGroup.name })
      .from(session)
      .innerJoin(studentGroup, eq(studentGroup.id, session.groupId));

  function get(id: string): Session | null {
    const row = all().where(eq(session.id, id)).get();
    return row === undefined ? null : toSession(row);
  }

  return {
    get,

    /** Times are kept in whole ms. */
    create(facts: NewSession): Session {
      const id = newId(facts.startedMs);
      const startedMs = Math.round(facts.startedMs);
      const plan = JSON.stringify(planSettingsSchema.parse(facts.plan));
      typed
        .insert(session)
        .values({ ...facts, id, startedMs, plan })
        .run();
      const made = get(id);
      if (made === null) throw new Error("The session was not written");
      return made;
    },

    /** Newest first; of one group, or of all when null. */
    list(groupId: string | null, limit: number): Session[] {
      return all()
        .where(groupId === null ? undefined : eq(session.groupId, groupId))
        .orderBy(desc(session.startedMs), desc(session.id))
        .limit(limit)
        .all()
        .map(toSession);
    },
  };
}
export type Sessions = ReturnType<typeof sessionRepository>;

type Row = typeof session.$inferSelect & { groupName: string };

function toSession({ number: _number, erasedSeq: _erased, plan, ...facts }: Row): Session {
  return { ...facts, plan: planSettingsSchema.parse(JSON.parse(plan)) };
}
