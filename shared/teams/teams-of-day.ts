import type { TeamWish } from "./kept.ts";
import { keepsWishes } from "./wishes.ts";

type Teams = readonly (readonly string[])[];

/**
 * A round's teams with those who are here on a day: who is absent or left is taken out, who has no team yet
 * joins the smallest, and where sizes then differ by more than one somebody of the largest moves to the
 * smallest, the last of the list first whose move keeps every wish. A team of which nobody is here is empty.
 *
 * Example: teamsOfDay([["a", "b", "c"], ["d", "e", "f"]], ["a", "b", "c", "f"], []) // [["a", "b"], ["f", "c"]]
 *
 * @param here students who are here, in the roster's order
 */
export function teamsOfDay(
  teams: Teams,
  here: readonly string[],
  wishes: readonly TeamWish[],
): string[][] {
  const present = new Set(here);
  let now = teams.map((team) => team.filter((id) => present.has(id)));
  if (now.length === 0) return [];
  const placed = new Set(now.flat());
  for (const id of here) {
    if (placed.has(id)) continue;
    const bySize = places(now).sort((one, other) => sizeAt(now, one) - sizeAt(now, other));
    const best = bySize.find((to) => keepsWishes(joined(now, id, to), wishes)) ?? bySize[0] ?? 0;
    now = joined(now, id, best);
  }
  // Each move brings two sizes nearer, so there are fewer moves than students.
  for (let move = 0; move < here.length; move++) {
    const next = evened(now, wishes);
    if (next === null) break;
    now = next;
  }
  return now;
}

const places = (teams: Teams): number[] => teams.map((_, at) => at);
const sizeAt = (teams: Teams, at: number): number => teams[at]?.length ?? 0;
const joined = (teams: Teams, id: string, to: number): string[][] =>
  teams.map((team, at) => (at === to ? [...team, id] : team.filter((each) => each !== id)));

/** One move nearer to even sizes; null when they are even, or no move keeps the wishes. */
function evened(teams: Teams, wishes: readonly TeamWish[]): string[][] | null {
  const bySize = places(teams).sort((one, other) => sizeAt(teams, one) - sizeAt(teams, other));
  for (const to of bySize) {
    for (const from of bySize.toReversed()) {
      if (sizeAt(teams, from) - sizeAt(teams, to) < 2) break;
      for (const id of (teams[from] ?? []).toReversed()) {
        const moved = joined(teams, id, to);
        if (keepsWishes(moved, wishes)) return moved;
      }
    }
  }
  return null;
}
