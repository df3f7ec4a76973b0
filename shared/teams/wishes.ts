import type { StudentPair } from "./deal-teams.ts";
import type { TeamWish } from "./kept.ts";

/** Wishes of one kind as pairs of numbers, by the place of each student in a list; others are left out. */
export function wishedPairs(
  wishes: readonly TeamWish[],
  kind: TeamWish["kind"],
  students: readonly string[],
): StudentPair[] {
  const place = new Map(students.map((id, at) => [id, at]));
  return wishes
    .filter((wish) => wish.kind === kind)
    .flatMap(({ studentIds }) => {
      const places = studentIds.flatMap((id) => place.get(id) ?? []);
      return places.flatMap((one, at) =>
        places.slice(at + 1).map((other): StudentPair => [one, other]),
      );
    });
}

/**
 * Whether teams keep every wish, as far as both students are in them.
 *
 * Example: keepsWishes([["a", "b"], ["c"]], [{ kind: "apart", studentIds: ["a", "b"] }]) // false
 */
export const keepsWishes = (
  teams: readonly (readonly string[])[],
  wishes: readonly TeamWish[],
): boolean => brokenWishes(teams, wishes).length === 0;

/**
 * The wishes that teams break, each with those of its students who are in them.
 *
 * Example: brokenWishes([["a", "b"], ["c"]], [{ kind: "apart", studentIds: ["a", "b", "z"] }]) // [{ kind: "apart", studentIds: ["a", "b"] }]
 */
export function brokenWishes(
  teams: readonly (readonly string[])[],
  wishes: readonly TeamWish[],
): TeamWish[] {
  const teamOf = new Map(teams.flatMap((team, at) => team.map((id) => [id, at] as const)));
  return wishes.flatMap(({ kind, studentIds }) => {
    const there = studentIds.filter((id) => teamOf.has(id));
    const different = new Set(there.map((id) => teamOf.get(id))).size;
    const isKept = kind === "apart" ? different === there.length : different <= 1;
    return isKept ? [] : [{ kind, studentIds: there }];
  });
}
