import { asc, eq } from "drizzle-orm";
import type { BetterSQLite3Database } from "drizzle-orm/better-sqlite3";
import type { TeamSettings, TeamWish } from "../../../shared/teams/kept.ts";
import { teamName, teamTerm, teamWish, teamWishStudent } from "./tables.ts";

/** A group's term of teams, with what its deals are drawn from. */
export interface TeamTerm {
  readonly settings: TeamSettings;
  readonly seed: string;
  /** How often was dealt so far. */
  readonly deals: number;
}

/** What holds for a term: how teams are dealt, what they are called, and what was wished. */
export function teamTerms(typed: BetterSQLite3Database, newId: (nowMs: number) => string) {
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
  };
}
