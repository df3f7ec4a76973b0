import { and, asc, eq, gt, sql } from "drizzle-orm";
import type { BetterSQLite3Database } from "drizzle-orm/better-sqlite3";
import type { TeamRound } from "../../../shared/teams/kept.ts";
import { teamDay, teamPlace, teamRound, teamTerm } from "./tables.ts";
import { teamPlaces } from "./team-places.ts";
import { teamTerms } from "./team-terms.ts";

/** A round before it is kept. */
export type NewRound = Pick<TeamRound, "startsOn" | "teams">;

/**
 * A group's teams: how they are dealt, what must hold, and the rounds of the term. What writes more than one row
 * is to be called within a transaction.
 */
export function teamRepository(
  { typed }: { readonly typed: BetterSQLite3Database },
  newId: (nowMs: number) => string,
) {
  const { placesOf, writePlaces, keepEarlier, teamsOn } = teamPlaces(typed);

  const toRound = ({ id, number, startsOn }: typeof teamRound.$inferSelect): TeamRound => ({
    id,
    number,
    startsOn,
    teams: placesOf(id),
  });

  function dayIdOf(groupId: string, day: string): string | null {
    const isThis = and(eq(teamDay.groupId, groupId), eq(teamDay.day, day));
    return typed.select().from(teamDay).where(isThis).get()?.id ?? null;
  }

  return {
    ...teamTerms(typed, newId),

    round(id: string): (TeamRound & { readonly groupId: string }) | null {
      const row = typed.select().from(teamRound).where(eq(teamRound.id, id)).get();
      return row === undefined ? null : { ...toRound(row), groupId: row.groupId };
    },

    /** In the order in which they are held. */
    rounds(groupId: string): TeamRound[] {
      return typed
        .select()
        .from(teamRound)
        .where(eq(teamRound.groupId, groupId))
        .orderBy(asc(teamRound.number))
        .all()
        .map(toRound);
    },

    /** Puts these in the place of all rounds numbered above `after`, and counts the deal. */
    deal(groupId: string, after: number, rounds: readonly NewRound[], nowMs: number): void {
      typed
        .delete(teamRound)
        .where(and(eq(teamRound.groupId, groupId), gt(teamRound.number, after)))
        .run();
      for (const [index, { startsOn, teams }] of rounds.entries()) {
        const id = newId(nowMs);
        typed
          .insert(teamRound)
          .values({ id, groupId, number: after + index + 1, startsOn })
          .run();
        writePlaces(id, teams);
      }
      typed
        .update(teamTerm)
        .set({ deals: sql`${teamTerm.deals} + 1` })
        .where(eq(teamTerm.groupId, groupId))
        .run();
    },

    /** The teams of a round from a day on; days before it keep those they had. */
    savePlaces(round: TeamRound, teams: TeamRound["teams"], from: string): void {
      keepEarlier(round, teams, from);
      writePlaces(round.id, teams);
    },

    teamsOn,

    /** The id under which a group's day pays; made when it is first asked for. */
    dayId(groupId: string, day: string, nowMs: number): string {
      const known = dayIdOf(groupId, day);
      if (known !== null) return known;
      const id = newId(nowMs);
      typed.insert(teamDay).values({ id, groupId, day }).run();
      return id;
    },

    /** The same, or null where the day has not paid yet. */
    knownDayId: dayIdOf,

    /** The rounds that place a student, oldest first, with group and number of the team. */
    placesOfStudent(studentId: string): {
      readonly groupId: string;
      readonly number: number;
      readonly startsOn: string;
      readonly team: number;
    }[] {
      return typed
        .select({
          groupId: teamRound.groupId,
          number: teamRound.number,
          startsOn: teamRound.startsOn,
          team: teamPlace.team,
        })
        .from(teamPlace)
        .innerJoin(teamRound, eq(teamRound.id, teamPlace.roundId))
        .where(eq(teamPlace.studentId, studentId))
        .orderBy(asc(teamRound.startsOn), asc(teamRound.number))
        .all();
    },
  };
}
export type Teams = ReturnType<typeof teamRepository>;
