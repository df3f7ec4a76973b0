import { and, asc, desc, eq, gt } from "drizzle-orm";
import type { BetterSQLite3Database } from "drizzle-orm/better-sqlite3";
import type { TeamRound } from "../../../shared/teams/kept.ts";
import { teamEarlierPlace, teamPlace } from "./tables.ts";

type Teams = TeamRound["teams"];

/** Who is in which team of a round: now, and on days before a swap. */
export function teamPlaces(typed: BetterSQLite3Database) {
  return {
    placesOf(roundId: string): string[][] {
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
    },

    writePlaces(roundId: string, teams: Teams): void {
      typed.delete(teamPlace).where(eq(teamPlace.roundId, roundId)).run();
      for (const [studentId, team] of teamNumbers(teams)) {
        typed.insert(teamPlace).values({ roundId, studentId, team }).run();
      }
    },

    /** Keeps for the days before `from` where those were who are in another team from then on. */
    keepEarlier(round: TeamRound, teams: Teams, from: string): void {
      if (round.startsOn >= from) return;
      const before = teamNumbers(round.teams);
      for (const [studentId, team] of teamNumbers(teams)) {
        const was = before.get(studentId);
        if (was === undefined || was === team) continue;
        typed
          .insert(teamEarlierPlace)
          .values({ roundId: round.id, studentId, until: from, team: was })
          // Of two swaps on one day, the days before had what stood before the first.
          .onConflictDoNothing()
          .run();
      }
    },

    /** The teams that a round had on a day: as they are now, but for swaps that came later. */
    teamsOn(round: TeamRound, day: string): string[][] {
      const later = typed
        .select()
        .from(teamEarlierPlace)
        .where(and(eq(teamEarlierPlace.roundId, round.id), gt(teamEarlierPlace.until, day)))
        .orderBy(desc(teamEarlierPlace.until))
        .all();
      const numbers = teamNumbers(round.teams);
      // The first swap after the day comes last, and says where the student was.
      for (const { studentId, team } of later) {
        if (numbers.has(studentId)) numbers.set(studentId, team);
      }
      return round.teams.map((_, at) =>
        [...numbers].flatMap(([studentId, team]) => (team === at + 1 ? [studentId] : [])),
      );
    },
  };
}

/** The number of each student's team, from 1. */
const teamNumbers = (teams: Teams): Map<string, number> =>
  new Map(teams.flatMap((ids, at) => ids.map((id): [string, number] => [id, at + 1])));
