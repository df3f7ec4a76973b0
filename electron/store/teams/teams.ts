import { and, asc, eq, gt, sql } from "drizzle-orm";
import type { BetterSQLite3Database } from "drizzle-orm/better-sqlite3";
import type { TeamRound, TeamSettings, TeamWish } from "../../../shared/teams/kept.ts";
import {
  teamDay,
  teamName,
  teamPlace,
  teamRound,
  teamTerm,
  teamWish,
  teamWishStudent,
} from "./tables.ts";

/** A group's term of teams, with what its deals are drawn from. */
export interface TeamTerm {
  readonly settings: TeamSettings;
  readonly seed: string;
  /** How often was dealt so far. */
  readonly deals: number;
}

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
  const placesOf = (roundId: string): string[][] => {
    const teams: string[][] = [];
    const rows = typed
      .select()
      .from(teamPlace)
      .where(eq(teamPlace.roundId, roundId))
      .orderBy(asc(teamPlace.team), asc(teamPlace.studentId))
      .all();
    for (const { team, studentId } of rows) {
      while (teams.length < team) teams.push([]);
      teams[team - 1]?.push(studentId);
    }
    return teams;
  };

  function writePlaces(roundId: string, teams: TeamRound["teams"]): void {
    typed.delete(teamPlace).where(eq(teamPlace.roundId, roundId)).run();
    for (const [index, ids] of teams.entries()) {
      for (const studentId of ids)
        typed
          .insert(teamPlace)
          .values({ roundId, studentId, team: index + 1 })
          .run();
    }
  }

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
    /** Null where a group has no teams. */
    term(groupId: string): TeamTerm | null {
      const row = typed.select().from(teamTerm).where(eq(teamTerm.groupId, groupId)).get();
      if (row === undefined) return null;
      const { groupId: _group, seed, deals, ...settings } = row;
      return { settings, seed, deals };
    },

    saveSettings(groupId: string, settings: TeamSettings, freshSeed: string): void {
      typed
        .insert(teamTerm)
        .values({ groupId, seed: freshSeed, deals: 0, ...settings })
        .onConflictDoUpdate({ target: teamTerm.groupId, set: settings })
        .run();
    },

    /** By team, from the first; a team without a name has an empty one. */
    names(groupId: string): string[] {
      const names: string[] = [];
      const rows = typed
        .select()
        .from(teamName)
        .where(eq(teamName.groupId, groupId))
        .orderBy(asc(teamName.team))
        .all();
      for (const { team, name } of rows) {
        while (names.length < team) names.push("");
        names[team - 1] = name;
      }
      return names;
    },

    saveNames(groupId: string, names: readonly string[]): void {
      typed.delete(teamName).where(eq(teamName.groupId, groupId)).run();
      for (const [index, name] of names.entries()) {
        if (name !== "")
          typed
            .insert(teamName)
            .values({ groupId, team: index + 1, name })
            .run();
      }
    },

    /** Wishes of two students or more; one of whom the others were erased says nothing. */
    wishes(groupId: string): TeamWish[] {
      return typed
        .select()
        .from(teamWish)
        .where(eq(teamWish.groupId, groupId))
        .orderBy(asc(teamWish.id))
        .all()
        .map(({ id, kind }) => ({
          kind,
          studentIds: typed
            .select()
            .from(teamWishStudent)
            .where(eq(teamWishStudent.wishId, id))
            .orderBy(asc(teamWishStudent.studentId))
            .all()
            .map(({ studentId }) => studentId),
        }))
        .filter(({ studentIds }) => studentIds.length > 1);
    },

    saveWishes(groupId: string, wishes: readonly TeamWish[], nowMs: number): void {
      typed.delete(teamWish).where(eq(teamWish.groupId, groupId)).run();
      for (const { kind, studentIds } of wishes) {
        const id = newId(nowMs);
        typed.insert(teamWish).values({ id, groupId, kind }).run();
        for (const studentId of new Set(studentIds))
          typed.insert(teamWishStudent).values({ wishId: id, studentId }).run();
      }
    },

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

    savePlaces(roundId: string, teams: TeamRound["teams"]): void {
      writePlaces(roundId, teams);
    },

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
