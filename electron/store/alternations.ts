import { asc, eq } from "drizzle-orm";
import { type Alternation, type Condition, nextTurn } from "../../shared/phase/alternation.ts";
import type { Connection } from "./connection.ts";
import { newId } from "./new-id.ts";
import { alternatedSession, alternation, session } from "./tables.ts";

/** Two conditions by turns: the drawn order, and which session had which place in it. */
export function alternationRepository({ bare, typed }: Connection) {
  /** Oldest first. */
  function list(groupId: string): Alternation[] {
    const held = typed
      .select({
        alternationId: alternatedSession.alternationId,
        place: alternatedSession.place,
        sessionId: session.id,
      })
      .from(alternatedSession)
      .innerJoin(session, eq(session.number, alternatedSession.sessionNumber))
      .where(eq(session.groupId, groupId))
      .orderBy(asc(alternatedSession.place))
      .all();
    return typed
      .select()
      .from(alternation)
      .where(eq(alternation.groupId, groupId))
      .orderBy(asc(alternation.createdMs), asc(alternation.id))
      .all()
      .map(({ turns, createdMs: _created, ...facts }) => ({
        ...facts,
        order: turns,
        sessions: held
          .filter(({ alternationId }) => alternationId === facts.id)
          .map(({ sessionId, place }) => ({ sessionId, place })),
      }));
  }

  /** The one that still has sessions to come; null where there is none. */
  const present = (groupId: string): Alternation | null =>
    list(groupId).findLast((each) => nextTurn(each) !== null) ?? null;

  const take = bare.prepare<[string, number, string]>(
    `INSERT INTO alternated_session (alternation_id, place, session_number)
     VALUES (?, ?, (SELECT number FROM session WHERE id = ?))`,
  );

  return {
    list,
    present,

    groupOf(id: string): string | null {
      const row = typed
        .select({ groupId: alternation.groupId })
        .from(alternation)
        .where(eq(alternation.id, id))
        .get();
      return row?.groupId ?? null;
    },

    create({ order, ...facts }: Omit<Alternation, "id" | "sessions">, nowMs: number): Alternation {
      const id = newId(nowMs);
      typed
        .insert(alternation)
        .values({ ...facts, id, turns: order, createdMs: Math.round(nowMs) })
        .run();
      return { ...facts, id, order, sessions: [] };
    },

    /** Gives a session of the group the next turn; null where no turn is open. */
    takeTurn(groupId: string, sessionId: string): Condition | null {
      const open = present(groupId);
      const turn = open === null ? null : nextTurn(open);
      if (open === null || turn === null) return null;
      take.run(open.id, turn.place, sessionId);
      return turn.condition;
    },

    /** The sessions stay; only that they took turns is forgotten. */
    remove(id: string): void {
      typed.delete(alternation).where(eq(alternation.id, id)).run();
    },
  };
}
export type Alternations = ReturnType<typeof alternationRepository>;
