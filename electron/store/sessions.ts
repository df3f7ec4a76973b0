import { and, desc, eq, getTableColumns, gte, sql } from "drizzle-orm";
import type { Session } from "../../shared/api/sessions.ts";
import { keptPlanSchema, planSettingsSchema } from "../../shared/plan/plan.ts";
import type { Connection } from "./connection.ts";
import { newId } from "./new-id.ts";
import { session, studentGroup } from "./tables.ts";

export type NewSession = Omit<Session, "id" | "groupName">;

/** The fixed facts of each session; what happened in it is in the session log. */
export function sessionRepository({ bare, typed }: Connection) {
  const all = () =>
    typed
      .select({ ...getTableColumns(session), groupName: studentGroup.name })
      .from(session)
      .innerJoin(studentGroup, eq(studentGroup.id, session.groupId));

  function get(id: string): Session | null {
    const row = all().where(eq(session.id, id)).get();
    return row === undefined ? null : toSession(row);
  }

  const ofStudent = bare
    .prepare<[string], string>(
      `SELECT session.id FROM student JOIN session USING (group_id)
       WHERE student.id = ? AND session.kind <> 'practice' AND (
         started_ms >= student.created_ms AND started_ms < ifnull(student.archived_ms, started_ms + 1)
         OR EXISTS (
           SELECT 1 FROM session_event
           WHERE session_number = session.number AND student_number = student.number
         )
       )
       ORDER BY started_ms, session.id`,
    )
    .pluck();

  return {
    get,

    /**
     * Times are kept in whole ms.
     *
     * @param importId the import that brought it, or null when it is held here
     */
    create(facts: NewSession, importId: string | null = null): Session {
      const id = newId(facts.startedMs);
      const startedMs = Math.round(facts.startedMs);
      const plan = JSON.stringify(planSettingsSchema.parse(facts.plan));
      typed
        .insert(session)
        .values({ ...facts, id, startedMs, plan, importId })
        .run();
      const made = get(id);
      if (made === null) throw new Error("The session was not written");
      return made;
    },

    /**
     * Ids of the sessions that concern a student, oldest first, without practice, which is no record: those
     * with something of theirs in the log, and all of the group while they belonged to it.
     */
    idsOf: (studentId: string): string[] => ofStudent.all(studentId),

    /** Seatwork recorded on paper cards from a day on, newest first. */
    onPaperSince(day: string): Session[] {
      const recording = sql`json_extract(${session.plan}, '$.recording')`;
      return all()
        .where(and(eq(session.kind, "seatwork"), gte(session.day, day), eq(recording, "paper")))
        .orderBy(desc(session.startedMs), desc(session.id))
        .all()
        .map(toSession);
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

function toSession(row: Row): Session {
  const { number: _number, erasedSeq: _erased, importId: _import, plan, ...facts } = row;
  return { ...facts, plan: keptPlanSchema.parse(JSON.parse(plan)) };
}
