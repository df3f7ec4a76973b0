import { and, desc, eq, getTableColumns, gte, sql } from "drizzle-orm";
import type { Session } from "../../shared/api/sessions.ts";
import { keptPlanSchema, planSettingsSchema } from "../../shared/plan/plan.ts";
import type { Connection } from "./connection.ts";
import { type Damage, damageFound } from "./damage.ts";
import { StoreError } from "./file/store-error.ts";
import { readableJson } from "./file/stored-json.ts";
import { newId } from "./new-id.ts";
import { session, studentGroup } from "./tables.ts";

export type NewSession = Omit<Session, "id" | "groupName">;

/**
 * The fixed facts of each session; what happened in it is in the session log. One whose plan cannot be
 * read is left out of lists, and refused as `damaged` when it is asked for.
 *
 * @param damage is told of what cannot be read
 */
export function sessionRepository({ bare, typed }: Connection, damage: Damage = damageFound()) {
  function readable(rows: readonly Row[]): Session[] {
    return rows.flatMap((row) => {
      const kept = toSession(row);
      if (kept === null) damage.found(row.id, 0);
      return kept === null ? [] : [kept];
    });
  }

  const all = () =>
    typed
      .select({ ...getTableColumns(session), groupName: studentGroup.name })
      .from(session)
      .innerJoin(studentGroup, eq(studentGroup.id, session.groupId));

  // Asked for with every mark that comes in, so built once.
  const one = all()
    .where(eq(session.id, sql.placeholder("id")))
    .prepare();

  const insert = typed
    .insert(session)
    .values({
      id: sql.placeholder("id"),
      groupId: sql.placeholder("groupId"),
      kind: sql.placeholder("kind"),
      planName: sql.placeholder("planName"),
      plan: sql.placeholder("plan"),
      seed: sql.placeholder("seed"),
      startedMs: sql.placeholder("startedMs"),
      offsetMinutes: sql.placeholder("offsetMinutes"),
      day: sql.placeholder("day"),
      importId: sql.placeholder("importId"),
    })
    .prepare();

  function get(id: string): Session | null {
    const row = one.get({ id });
    if (row === undefined) return null;
    const [kept] = readable([row]);
    if (kept === undefined) throw new StoreError("damaged");
    return kept;
  }

  return {
    ...foundSessions(bare),

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
      insert.run({ ...facts, id, startedMs, plan, importId });
      const made = get(id);
      if (made === null) throw new Error("The session was not written");
      return made;
    },

    /** Whether a group has a session that began at this moment, in ms since 1970 UTC. */
    isThere: (groupId: string, startedMs: number): boolean =>
      all()
        .where(and(eq(session.groupId, groupId), eq(session.startedMs, startedMs)))
        .get() !== undefined,

    /** Seatwork recorded on paper cards from a day on, newest first. */
    onPaperSince(day: string): Session[] {
      const recording = sql`iif(json_valid(${session.plan}), json_extract(${session.plan}, '$.recording'), '')`;
      return readable(
        all()
          .where(and(eq(session.kind, "seatwork"), gte(session.day, day), eq(recording, "paper")))
          .orderBy(desc(session.startedMs), desc(session.id))
          .all(),
      );
    },

    /** Newest first; of one group, or of all when null. */
    list(groupId: string | null, limit: number): Session[] {
      return readable(
        all()
          .where(groupId === null ? undefined : eq(session.groupId, groupId))
          .orderBy(desc(session.startedMs), desc(session.id))
          .limit(limit)
          .all(),
      );
    },
  };
}
export type Sessions = ReturnType<typeof sessionRepository>;

/** What is asked of sessions without reading their plans. */
function foundSessions(bare: Connection["bare"]) {
  const ofStudent = bare
    .prepare<[{ studentId: string }], string>(
      `WITH who AS (SELECT * FROM student WHERE id = @studentId),
         time_in (group_id, from_ms, until_ms) AS (
           SELECT group_id, ifnull(joined_ms, created_ms), archived_ms FROM who
           UNION ALL
           SELECT stay.group_id, from_ms, until_ms FROM stay JOIN who ON number = student_number)
       SELECT id FROM session
       WHERE kind <> 'practice' AND (
         EXISTS (
           SELECT 1 FROM time_in WHERE time_in.group_id = session.group_id
             AND from_ms <= started_ms AND started_ms < ifnull(until_ms, started_ms + 1))
         OR EXISTS (
           SELECT 1 FROM session_event
           WHERE session_number = session.number AND student_number = (SELECT number FROM who))
       )
       ORDER BY started_ms, id`,
    )
    .pluck();

  const place = bare.prepare<[string], { day: string; groupName: string }>(
    `SELECT day, student_group.name AS groupName
     FROM session JOIN student_group ON student_group.id = group_id WHERE session.id = ?`,
  );
  const repaired = bare.prepare<[], { id: string; entries: number }>(
    `SELECT session.id, count(*) AS entries FROM session_event
     JOIN session ON session.number = session_number
     WHERE session_event.kind = 'passed-over' GROUP BY session.number ORDER BY started_ms DESC`,
  );

  return {
    /** The day and the group of a session, also of one that cannot be read otherwise. */
    placeOf: (id: string): { readonly day: string; readonly groupName: string } | null =>
      place.get(id) ?? null,

    /** Sessions of which damaged entries are passed over, and how many. */
    withPassedOver: (): { readonly id: string; readonly entries: number }[] => repaired.all(),

    /**
     * Ids of the sessions that concern a student, oldest first, without practice, which is no record: those
     * with something of theirs in the log, and all of each group while they belonged to it.
     */
    idsOf: (studentId: string): string[] => ofStudent.all({ studentId }),
  };
}

type Row = typeof session.$inferSelect & { groupName: string };

/** The session of a row, or null when its plan cannot be read. */
function toSession(row: Row): Session | null {
  const { number: _number, erasedSeq: _erased, importId: _import, plan, ...facts } = row;
  const kept = readableJson(keptPlanSchema, plan);
  return kept === undefined ? null : { ...facts, plan: kept };
}
