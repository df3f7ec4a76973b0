import type { TeamWish } from "./kept.ts";
import { repairTeams, spread } from "./repair-teams.ts";
import { brokenWishes, keepsWishes } from "./wishes.ts";

type Teams = readonly (readonly string[])[];

/** The teams of a day, with what they could not keep. */
export interface TeamsOfDay {
  readonly teams: readonly (readonly string[])[];
  /** Wishes that do not hold among those who are here. */
  readonly unmet: readonly TeamWish[];
  /** Whether two teams differ by more than one. */
  readonly isUneven: boolean;
}

/**
 * A round's teams with those who are here on a day: who is absent or left is taken out, who has no team yet
 * joins the smallest, and where sizes then differ by more than one somebody of the largest moves to the
 * smallest, the last of the list first whose move keeps every wish. Where that leaves a wish unmet or sizes
 * uneven, others move too, and what is left then is said. A team of which nobody is here is empty.
 *
 * Example: teamsOfDay([["a", "b", "c"], ["d", "e", "f"]], ["a", "b", "c", "f"], []) // { teams: [["a", "b"], ["f", "c"]], unmet: [], isUneven: false }
 *
 * @param here students who are here, in the roster's order
 */
export function teamsOfDay(
  round: Teams,
  here: readonly string[],
  wishes: readonly TeamWish[],
): TeamsOfDay {
  const present = new Set(here);
  let now: Teams = round.map((team) => team.filter((id) => present.has(id)));
  if (now.length === 0) return { teams: [], unmet: [], isUneven: false };
  const placed = new Set(now.flat());
  for (const id of here) {
    if (placed.has(id)) continue;
    const bySize = places(now).sort((one, other) => sizeAt(now, one) - sizeAt(now, other));
    const best = bySize.find((to) => keepsWishes(joined(now, [id], to), wishes)) ?? bySize[0] ?? 0;
    now = joined(now, [id], best);
  }
  // Each move brings two sizes nearer, so there are fewer moves than students.
  for (let move = 0; move < here.length; move++) {
    const next = evened(now, wishes);
    if (next === null) break;
    now = next;
  }
  const teams = repairTeams(now, wishes);
  return { teams, unmet: brokenWishes(teams, wishes), isUneven: spread(teams) > 1 };
}

const places = (teams: Teams): number[] => teams.map((_, at) => at);
const sizeAt = (teams: Teams, at: number): number => teams[at]?.length ?? 0;
const joined = (teams: Teams, ids: readonly string[], to: number): Teams =>
  teams.map((team, at) => {
    const others = team.filter((each) => !ids.includes(each));
    return at === to ? [...others, ...ids] : others;
  });

/** One move nearer to even sizes; null when they are even, or no move keeps the wishes. */
function evened(teams: Teams, wishes: readonly TeamWish[]): Teams | null {
  const bySize = places(teams).sort((one, other) => sizeAt(teams, one) - sizeAt(teams, other));
  for (const to of bySize) {
    for (const from of bySize.toReversed()) {
      if (sizeAt(teams, from) - sizeAt(teams, to) < 2) break;
      for (const id of (teams[from] ?? []).toReversed()) {
        const moved = joined(teams, [id], to);
        if (keepsWishes(moved, wishes)) return moved;
      }
    }
  }
  return null;
}
