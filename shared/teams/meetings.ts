/** Students by number from 0; each team of a round is a list of them. */
export type Round = readonly (readonly number[])[];

/** How well rounds mix a class. */
export interface Mixing {
  /**
   * Sum over all pairs of m (m - 1) / 2, m being how often the two were in one team: how many meetings
   * repeat an earlier one, weighted by how often.
   */
  readonly objective: number;
  /** The most meetings of one pair. */
  readonly mostMeetings: number;
  /** Different teammates of the student who has fewest. */
  readonly fewestMates: number;
  /** Pairs that meet more than once. */
  readonly repeatedPairs: number;
}

/** How often each two students meet, as a square of `students` by `students` counts. */
function meetingsOf(rounds: readonly Round[], students: number): Uint16Array {
  const met = new Uint16Array(students * students);
  for (const round of rounds) {
    for (const team of round) {
      for (const one of team) {
        for (const other of team)
          if (one !== other) met[one * students + other] = metAt(met, one, other, students) + 1;
      }
    }
  }
  return met;
}

const metAt = (met: Uint16Array, one: number, other: number, students: number): number =>
  met[one * students + other] ?? 0;

/**
 * How often students meet again over some rounds, and whom they never meet.
 *
 * Example: mixingOf([[[0, 1], [2, 3]], [[0, 1], [2, 3]]], 4).objective // 2
 */
export function mixingOf(rounds: readonly Round[], students: number): Mixing {
  const met = meetingsOf(rounds, students);
  let objective = 0;
  let mostMeetings = 0;
  let repeatedPairs = 0;
  let fewestMates = students;
  for (let one = 0; one < students; one++) {
    let mates = 0;
    for (let other = 0; other < students; other++) {
      const times = metAt(met, one, other, students);
      if (times > 0) mates++;
      if (other < one) continue;
      objective += (times * (times - 1)) / 2;
      mostMeetings = Math.max(mostMeetings, times);
      if (times > 1) repeatedPairs++;
    }
    fewestMates = Math.min(fewestMates, mates);
  }
  return { objective, mostMeetings, fewestMates: students === 0 ? 0 : fewestMates, repeatedPairs };
}

/**
 * The least that the objective of any rounds of these sizes can be: M meetings spread as evenly over the
 * P pairs as whole numbers allow, h = floor(M / P): P h (h - 1) / 2 + h (M - P h).
 *
 * Example: leastObjective(24, Array(10).fill([4, 4, 4, 4, 4, 4])) // 84
 *
 * @param sizes the sizes of the teams of each round
 */
export function leastObjective(students: number, sizes: readonly (readonly number[])[]): number {
  const meetings = sizes.flat().reduce((sum, size) => sum + (size * (size - 1)) / 2, 0);
  const pairs = (students * (students - 1)) / 2;
  if (pairs === 0) return 0;
  const each = Math.floor(meetings / pairs);
  return (pairs * each * (each - 1)) / 2 + each * (meetings - pairs * each);
}

/**
 * The sizes of a round's teams: as many teams as come nearest to the wished size, which differ by one
 * student at most, the larger ones first.
 *
 * Example: teamSizes(22, 4) // [4, 4, 4, 4, 3, 3]
 *
 * @throws RangeError when students or size is not a whole number from 1.
 */
export function teamSizes(students: number, size: number): number[] {
  for (const [name, value] of [
    ["students", students],
    ["size", size],
  ] as const) {
    if (!Number.isInteger(value) || value < 1)
      throw new RangeError(`${name} must be a whole number from 1; got ${value}.`);
  }
  const teams = Math.max(1, Math.round(students / size));
  const least = Math.floor(students / teams);
  return Array.from({ length: teams }, (_, at) => (at < students % teams ? least + 1 : least));
}
