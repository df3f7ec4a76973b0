import type { RandomStream } from "../schedule/stream.ts";
import { mostTeamRounds, mostTeamStudents } from "./limits.ts";
import { leastObjective, type Mixing, mixingOf, type Round, teamSizes } from "./meetings.ts";

/** Two students by number from 0. */
export type StudentPair = readonly [number, number];

export interface TeamWishes {
  readonly students: number;
  /** Wished size of a team; sizes differ by one at most. */
  readonly size: number;
  /** How many rounds to deal. */
  readonly rounds: number;
  /** Rounds that were held already: they count as meetings and are not changed. */
  readonly past?: readonly Round[];
  /** Never in one team. */
  readonly apart?: readonly StudentPair[];
  /** Always in one team. */
  readonly together?: readonly StudentPair[];
}

/** Rounds of teams, and how well they mix beside the best that any could. */
export interface DealtTeams {
  readonly kind: "dealt";
  /** The rounds to come; past ones are not among them. */
  readonly rounds: readonly Round[];
  /** Over past rounds and those to come. */
  readonly mixing: Mixing;
  /** What the objective cannot be below, whatever the draw. */
  readonly bound: number;
}

/** Why no teams can be dealt under these wishes. */
export interface TeamProblem {
  readonly kind: "problem";
  readonly reason: "together-too-many" | "apart-and-together" | "not-found";
}

/** Swaps tried in one search, and searches at the most; found by trying the lists in the tests. */
const swaps = 1_500_000;
const searches = 3;
/** The annealing temperature falls from the first to the second, in units of the objective. */
const warm = 0.5;
const cold = 0.12;
/** A wish that must hold weighs more than any repeated meeting. */
const wishWeight = 40;

/**
 * Draws rounds of teams in which students meet again as rarely as can be found: simulated annealing over
 * swaps of two students within a round, towards the least sum of m (m - 1) / 2 over all pairs; among
 * equals the one in which no pair meets most often, then in which the student with fewest different
 * teammates has most. Same wishes and stream, same rounds.
 *
 * Rounds in which nobody meets twice exist for more sizes than the search finds; how far the result may
 * be from the best is what `mixing.objective - bound` says.
 *
 * Example: dealTeams({ students: 9, size: 3, rounds: 4 }, randomStream("abc", "teams"))
 *
 * @throws RangeError when a number is out of range or a wish names a student who is not there.
 */
export function dealTeams(wishes: TeamWishes, random: RandomStream): DealtTeams | TeamProblem {
  const { students, size, rounds, past = [] } = wishes;
  refuseUnlikely(wishes);
  const impossible = contradiction(wishes);
  if (impossible !== null) return { kind: "problem", reason: impossible };
  const sizes = teamSizes(students, size);
  const allSizes = [
    ...past.map((round) => round.map((team) => team.length)),
    ...Array.from({ length: rounds }, () => sizes),
  ];
  const bound = leastObjective(students, allSizes);
  let best: { found: Round[]; mixing: Mixing } | null = null;
  for (let search = 0; search < searches; search++) {
    const found = searchOnce(wishes, sizes, bound, random);
    if (!holds(found, wishes)) continue;
    const mixing = mixingOf([...past, ...found], students);
    if (best === null || isBetter(mixing, best.mixing)) best = { found, mixing };
    if (best.mixing.objective === bound) break;
  }
  if (best === null) return { kind: "problem", reason: "not-found" };
  return { kind: "dealt", rounds: best.found, mixing: best.mixing, bound };
}

function isBetter(one: Mixing, other: Mixing): boolean {
  if (one.objective !== other.objective) return one.objective < other.objective;
  if (one.mostMeetings !== other.mostMeetings) return one.mostMeetings < other.mostMeetings;
  return one.fewestMates > other.fewestMates;
}

/** One annealing run; its state is flat arrays, because it tries over a million swaps. */
function searchOnce(
  wishes: TeamWishes,
  sizes: readonly number[],
  bound: number,
  random: RandomStream,
): Round[] {
  const { students, rounds, past = [] } = wishes;
  const below = (limit: number) => Math.floor(random() * limit);
  const room = layOut(sizes);
  const seats = Array.from({ length: rounds }, () => shuffled(students, below));
  const met = new Int16Array(students * students);
  const wish = wishMatrix(wishes);
  const at = (grid: Int16Array, one: number, other: number) => grid[one * students + other] ?? 0;
  const add = (one: number, other: number, times: number) => {
    met[one * students + other] = at(met, one, other) + times;
    met[other * students + one] = at(met, other, one) + times;
  };
  const toCome = seats.map((row) => teamsOf(row, sizes));
  for (const round of [...past, ...toCome]) {
    for (const team of round) {
      team.forEach((one, index) => {
        for (const other of team.slice(0, index)) add(one, other, 1);
      });
    }
  }
  let objective = mixingOf([...past, ...toCome], students).objective;
  let unmet = toCome.flat().reduce((sum, team) => sum + wishCost(team), 0);
  function wishCost(team: readonly number[]): number {
    let cost = 0;
    team.forEach((one, index) => {
      for (const other of team.slice(0, index)) cost += at(wish, one, other);
    });
    return cost;
  }
  // With every wish met, "together" has paid its weight back for each round and "apart" cost nothing.
  const leastUnmet = -wishWeight * (wishes.together ?? []).length * rounds;
  let heat = warm;
  const cooling = (cold / warm) ** (1 / swaps);
  for (let step = 0; step < swaps; step++, heat *= cooling) {
    if (objective === bound && unmet === leastUnmet) break;
    const row = seats[below(rounds)];
    const from = below(students);
    const to = below(students);
    const fromTeam = room[from];
    const toTeam = room[to];
    if (row === undefined || fromTeam === undefined || toTeam === undefined) continue;
    if (fromTeam === toTeam) continue;
    const one = row[from] ?? 0;
    const other = row[to] ?? 0;
    let repeats = 0;
    let wished = 0;
    for (let seat = fromTeam.first; seat < fromTeam.end; seat++) {
      const mate = row[seat] ?? 0;
      if (seat === from) continue;
      repeats += at(met, other, mate) - at(met, one, mate) + 1;
      wished += at(wish, other, mate) - at(wish, one, mate);
    }
    for (let seat = toTeam.first; seat < toTeam.end; seat++) {
      const mate = row[seat] ?? 0;
      if (seat === to) continue;
      repeats += at(met, one, mate) - at(met, other, mate) + 1;
      wished += at(wish, one, mate) - at(wish, other, mate);
    }
    const cost = repeats + wished;
    if (cost > 0 && random() >= Math.exp(-cost / heat)) continue;
    for (let seat = fromTeam.first; seat < fromTeam.end; seat++) {
      const mate = row[seat] ?? 0;
      if (seat === from) continue;
      add(one, mate, -1);
      add(other, mate, 1);
    }
    for (let seat = toTeam.first; seat < toTeam.end; seat++) {
      const mate = row[seat] ?? 0;
      if (seat === to) continue;
      add(other, mate, -1);
      add(one, mate, 1);
    }
    row[from] = other;
    row[to] = one;
    objective += repeats;
    unmet += wished;
  }
  return seats.map((row) => teamsOf(row, sizes));
}

interface Stretch {
  readonly first: number;
  readonly end: number;
}

/** For each seat the stretch of seats that is its team. */
function layOut(sizes: readonly number[]): Stretch[] {
  let first = 0;
  return sizes.flatMap((size) => {
    const team = { first, end: first + size };
    first += size;
    return Array.from({ length: size }, () => team);
  });
}

function teamsOf(row: readonly number[], sizes: readonly number[]): number[][] {
  let first = 0;
  return sizes.map((size) => {
    const team = row.slice(first, first + size).sort((a, b) => a - b);
    first += size;
    return team;
  });
}

/** Fisher and Yates's shuffle of the numbers below a limit. */
function shuffled(students: number, below: (limit: number) => number): number[] {
  const row = Array.from({ length: students }, (_, student) => student);
  for (let last = students - 1; last > 0; last--) {
    const pick = below(last + 1);
    const held = row[last] ?? 0;
    row[last] = row[pick] ?? 0;
    row[pick] = held;
  }
  return row;
}

function wishMatrix({ students, apart = [], together = [] }: TeamWishes): Int16Array {
  const wish = new Int16Array(students * students);
  const set = ([one, other]: StudentPair, weight: number) => {
    wish[one * students + other] = weight;
    wish[other * students + one] = weight;
  };
  for (const pair of apart) set(pair, wishWeight);
  for (const pair of together) set(pair, -wishWeight);
  return wish;
}

/** Whether every wish that must hold does, in every round. */
function holds(rounds: readonly Round[], { apart = [], together = [] }: TeamWishes): boolean {
  return rounds.every((round) => {
    const teamOf = new Map(round.flatMap((team, at) => team.map((student) => [student, at])));
    return (
      apart.every(([one, other]) => teamOf.get(one) !== teamOf.get(other)) &&
      together.every(([one, other]) => teamOf.get(one) === teamOf.get(other))
    );
  });
}

/** Wishes that no draw can meet, as far as they are plain. */
function contradiction(wishes: TeamWishes): TeamProblem["reason"] | null {
  const { students, size, apart = [], together = [] } = wishes;
  const groupOf = Array.from({ length: students }, (_, student) => student);
  for (const [one, other] of together) {
    const [keep, drop] = [groupOf[one], groupOf[other]];
    groupOf.forEach((group, student) => {
      if (group === drop) groupOf[student] = keep ?? group;
    });
  }
  if (apart.some(([one, other]) => groupOf[one] === groupOf[other])) return "apart-and-together";
  const counts = new Map<number, number>();
  for (const group of groupOf) counts.set(group, (counts.get(group) ?? 0) + 1);
  const largest = teamSizes(students, size)[0] ?? 0;
  return Math.max(0, ...counts.values()) > largest ? "together-too-many" : null;
}

function refuseUnlikely({ students, size, rounds, apart = [], together = [] }: TeamWishes): void {
  const refuse = (name: string, range: string, got: number) => {
    throw new RangeError(`${name} must be ${range}; got ${got}.`);
  };
  if (!Number.isInteger(students) || students < 2 || students > mostTeamStudents)
    refuse("students", `a whole number from 2 to ${mostTeamStudents}`, students);
  if (!Number.isInteger(size) || size < 2 || size > students)
    refuse("size", "a whole number from 2 to the number of students", size);
  if (!Number.isInteger(rounds) || rounds < 1 || rounds > mostTeamRounds)
    refuse("rounds", `a whole number from 1 to ${mostTeamRounds}`, rounds);
  for (const student of [...apart, ...together].flat()) {
    if (!Number.isInteger(student) || student < 0 || student >= students)
      refuse("a wished student", `a number from 0 below ${students}`, student);
  }
}
