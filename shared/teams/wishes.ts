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
export function keepsWishes(
  teams: readonly (readonly string[])[],
  wishes: readonly TeamWish[],
): boolean {
  const teamOf = new Map(teams.flatMap((team, at) => team.map((id) => [id, at] as const)));
  return wishes.every(({ kind, studentIds }) => {
    const there = studentIds.flatMap((id) => teamOf.get(id) ?? []);
    const different = new Set(there).size;
    return kind === "apart" ? different === there.length : different <= 1;
  });
}
