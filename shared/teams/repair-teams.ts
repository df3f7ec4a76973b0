import type { TeamWish } from "./kept.ts";
import { brokenWishes } from "./wishes.ts";

type Teams = readonly (readonly string[])[];
type Block = readonly string[];

/** So many places are tried in one search, a few milliseconds. */
const mostTries = 3_000;

/** By how many the largest of some teams exceeds the smallest. */
export function spread(teams: Teams): number {
  const sizes = teams.map((team) => team.length);
  return Math.max(...sizes) - Math.min(...sizes);
}

/**
 * The teams as they are if every wish holds and sizes differ by one at most. If not, students are moved and
 * exchanged as long as that helps, wishes before sizes; if that is not enough, all placements are searched,
 * starting from the teams the students are in. Where no teams satisfy everything, those with the fewest faults
 * that were found.
 *
 * Example: repairTeams([["a", "b", "x"], ["c"]], [{ kind: "apart", studentIds: ["a", "x"] }]) // [["b", "x"], ["c", "a"]]
 */
export function repairTeams(teams: Teams, wishes: readonly TeamWish[]): Teams {
  const isKept = (each: Teams) => brokenWishes(each, wishes).length === 0;
  const isGood = (each: Teams) => isKept(each) && spread(each) <= 1;
  if (isGood(teams)) return teams;
  const blocks = blocksOf(teams.flat(), wishes);
  const better = climbed(teams, blocks, wishes);
  if (isGood(better)) return better;
  const even = searched(better, blocks, wishes, Math.ceil(better.flat().length / better.length));
  if (even !== null && isGood(even)) return even;
  return isKept(better)
    ? better
    : (searched(better, blocks, wishes, better.flat().length) ?? better);
}

/** Students who move as one: those who belong together directly or through others, and everybody else alone. */
function blocksOf(here: readonly string[], wishes: readonly TeamWish[]): Block[] {
  let blocks: Block[] = here.map((id) => [id]);
  for (const { kind, studentIds } of wishes) {
    if (kind !== "together") continue;
    const touches = (block: Block) => block.some((id) => studentIds.includes(id));
    const one = blocks.filter(touches).flat();
    if (one.length > 0) blocks = [...blocks.filter((block) => !touches(block)), one];
  }
  return blocks;
}

const joined = (teams: Teams, ids: Block, to: number): Teams =>
  teams.map((team, at) => {
    const others = team.filter((each) => !ids.includes(each));
    return at === to ? [...others, ...ids] : others;
  });

const teamsById = (teams: Teams): ReadonlyMap<string, number> =>
  new Map(teams.flatMap((team, at) => team.map((id) => [id, at] as const)));

/** Teams after the best move or exchange, again and again until none makes them better. */
function climbed(teams: Teams, blocks: readonly Block[], wishes: readonly TeamWish[]): Teams {
  let now = { teams, fault: faultOf(teams, wishes) };
  for (;;) {
    const best = changed(now.teams, blocks)
      .map((each) => ({ teams: each, fault: faultOf(each, wishes) }))
      .reduce((one, other) => (other.fault < one.fault ? other : one), now);
    if (best === now) return now.teams;
    now = best;
  }
}

/** All teams that come of one block's move, or of two that change places. */
function changed(teams: Teams, blocks: readonly Block[]): Teams[] {
  const teamOf = teamsById(teams);
  const homeOf = ([first = ""]: Block) => teamOf.get(first) ?? 0;
  const moves = blocks.flatMap((block) => teams.map((_, to) => joined(teams, block, to)));
  const exchanges = blocks.flatMap((one, at) =>
    blocks
      .slice(at + 1)
      .filter((other) => homeOf(other) !== homeOf(one))
      .map((other) => joined(joined(teams, one, homeOf(other)), other, homeOf(one))),
  );
  return [...moves, ...exchanges];
}

/** How far teams are from what must hold: pairs against a wish first, then sizes. */
function faultOf(teams: Teams, wishes: readonly TeamWish[]): number {
  const teamOf = teamsById(teams);
  const against = wishes.reduce((total, { kind, studentIds }) => {
    const there = studentIds.flatMap((id) => teamOf.get(id) ?? []);
    const pairs = there.flatMap((one, at) =>
      there.slice(at + 1).filter((other) => (one === other) === (kind === "apart")),
    );
    return total + pairs.length;
  }, 0);
  const squares = teams.reduce((total, team) => total + team.length ** 2, 0);
  return against * (teamOf.size ** 2 + 1) + squares;
}

/** Teams of so many at most that keep every wish, each block where it is if it can be; null if none was found. */
function searched(
  teams: Teams,
  blocks: readonly Block[],
  wishes: readonly TeamWish[],
  most: number,
): Teams | null {
  const apart = wishes.filter(({ kind }) => kind === "apart");
  const clashes = (block: Block, team: readonly string[]) =>
    apart.some(({ studentIds }) => {
      const there = new Set(studentIds);
      return [...block, ...team].filter((id) => there.has(id)).length > 1;
    });
  const hard = (block: Block) =>
    block.length +
    apart.filter(({ studentIds }) => studentIds.some((id) => block.includes(id))).length;
  const inOrder = blocks.toSorted((one, other) => hard(other) - hard(one));
  const teamOf = teamsById(teams);
  const full = Math.max(1, teams.flat().length - teams.length * (most - 1));
  let tries = 0;
  const placed = (now: Teams, at: number): Teams | null => {
    const block = inOrder[at];
    if (block === undefined) return now;
    const home = teamOf.get(block[0] ?? "") ?? 0;
    const order = [home, ...now.map((_, to) => to).filter((to) => to !== home)];
    for (const to of order) {
      const team = now[to] ?? [];
      const size = team.length + block.length;
      const isTooMany =
        size > most ||
        (size === most && now.filter(({ length }) => length === most).length >= full);
      if (isTooMany || clashes(block, team)) continue;
      tries += 1;
      if (tries > mostTries) return null;
      const found = placed(joined(now, block, to), at + 1);
      if (found !== null) return found;
    }
    return null;
  };
  return placed(
    teams.map(() => []),
    0,
  );
}
