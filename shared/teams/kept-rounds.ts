import type { TeamRound, TeamSettings, TeamWish } from "./kept.ts";
import { leastObjective, type Mixing, mixingOf, type Round, teamSizes } from "./meetings.ts";
import { keepsWishes } from "./wishes.ts";

/** Kept rounds with students as their places in a list; who is not in the list is left out. */
export function numberedRounds(
  rounds: readonly Pick<TeamRound, "teams">[],
  students: readonly string[],
): Round[] {
  const place = new Map(students.map((id, at) => [id, at]));
  return rounds.map(({ teams }) => teams.map((team) => team.flatMap((id) => place.get(id) ?? [])));
}

/** How well a term's rounds mix the students in use, beside the least repeats that are possible. */
export function termMixing(
  rounds: readonly Pick<TeamRound, "teams">[],
  students: readonly string[],
): { readonly mixing: Mixing; readonly bound: number } {
  const numbered = numberedRounds(rounds, students);
  const sizes = numbered.map((round) => round.map((team) => team.length));
  return {
    mixing: mixingOf(numbered, students.length),
    bound: leastObjective(students.length, sizes),
  };
}

/**
 * Whether teams are what is asked for now: each student in use once, the wished sizes, every wish kept.
 *
 * Example: fitsNow([["a", "b"], ["c", "d"]], ["a", "b", "c", "d"], 2, []) // true
 */
export function fitsNow(
  teams: readonly (readonly string[])[],
  students: readonly string[],
  size: TeamSettings["size"],
  wishes: readonly TeamWish[],
): boolean {
  const placed = teams.flat();
  if (placed.length !== students.length || new Set(placed).size !== students.length) return false;
  if (!students.every((id) => placed.includes(id))) return false;
  const bySize = (one: number, other: number) => other - one;
  const sizes = teams.map((team) => team.length).sort(bySize);
  const asked = teamSizes(students.length, Math.min(size, students.length));
  return sizes.join() === asked.join() && keepsWishes(teams, wishes);
}

/** The round to show on a day: the one that is held, else the first to come; null where there is none. */
export const roundToShow = (rounds: readonly TeamRound[], day: string): TeamRound | null =>
  roundOn(rounds, day) ?? rounds[0] ?? null;

/** The round that is held on a day: the newest that has begun; null before the first. */
export const roundOn = (rounds: readonly TeamRound[], day: string): TeamRound | null =>
  rounds.filter(({ startsOn }) => startsOn <= day).at(-1) ?? null;
