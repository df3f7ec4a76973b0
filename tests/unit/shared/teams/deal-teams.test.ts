import { describe, expect, it } from "vitest";
import { randomStream } from "../../../../shared/schedule/stream.ts";
import {
  type DealtTeams,
  dealTeams,
  type TeamWishes,
} from "../../../../shared/teams/deal-teams.ts";
import { leastObjective, mixingOf, teamSizes } from "../../../../shared/teams/meetings.ts";

function dealt(wishes: TeamWishes, seed = "abc"): DealtTeams {
  const result = dealTeams(wishes, randomStream(seed, "teams"));
  if (result.kind === "problem") throw new Error(result.reason);
  return result;
}

// Sizes for which ready designs or the counting bound show that the least objective is reached, as
// measured elsewhere by plain swap annealing: affine planes (9 in threes, 16 in fours, 25 in fives),
// Kirkman's schoolgirls (15 in threes), one-factorizations (24 in twos) and others.
describe("rounds that reach the least possible", () => {
  it.each([
    [9, 3, 4, 0],
    [12, 3, 4, 0],
    [15, 3, 7, 0],
    [16, 4, 4, 0],
    [16, 4, 5, 0],
    [24, 4, 5, 0],
    [24, 3, 8, 0],
    [25, 5, 5, 0],
    [24, 2, 23, 0],
    [24, 4, 10, 84],
  ])("%i students in teams of %i, %i rounds: %i", (students, size, rounds, least) => {
    const { bound, mixing } = dealt({ students, size, rounds });
    expect(bound).toBe(least);
    expect(mixing.objective).toBe(least);
  });
});

describe("rounds for which the search stays above the bound", () => {
  it.each([
    [18, 3, 8],
    [24, 4, 6],
    [24, 4, 7],
  ])("%i students in teams of %i, %i rounds: the gap is stated", (students, size, rounds) => {
    const { bound, mixing, rounds: found } = dealt({ students, size, rounds });
    expect(bound).toBe(0);
    expect(mixing.objective).toBeLessThanOrEqual(12);
    expect(mixing).toEqual(mixingOf(found, students));
  });
});

describe("teams", () => {
  it("are the same for the same seed, and others for another", () => {
    // As many rounds as can be had without a repeated meeting, so that the search ends early.
    const wishes = { students: 9, size: 3, rounds: 3 };
    expect(dealt(wishes)).toEqual(dealt(wishes));
    expect(dealt(wishes, "abc").rounds).not.toEqual(dealt(wishes, "abd").rounds);
  });

  it("hold everybody once a round, in sizes that differ by one at most", () => {
    for (const [students, size] of [
      [23, 4],
      [22, 4],
      [7, 3],
      [5, 5],
      [31, 6],
    ] as const) {
      for (const round of dealt({ students, size, rounds: 3 }).rounds) {
        expect([...round.flat()].sort((a, b) => a - b)).toEqual(
          Array.from({ length: students }, (_, at) => at),
        );
        const sizes = round.map((team) => team.length);
        expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
      }
    }
    expect(teamSizes(22, 4)).toEqual([4, 4, 4, 4, 3, 3]);
    expect(teamSizes(21, 4)).toEqual([5, 4, 4, 4, 4]);
  });

  it("keep apart and keep together whom they must, in every round", () => {
    const { rounds } = dealt({
      students: 20,
      size: 4,
      rounds: 5,
      apart: [
        [0, 1],
        [0, 2],
        [5, 9],
      ],
      together: [[3, 4]],
    });
    for (const round of rounds) {
      const teamOf = (student: number) => round.findIndex((team) => team.includes(student));
      expect(teamOf(0)).not.toBe(teamOf(1));
      expect(teamOf(0)).not.toBe(teamOf(2));
      expect(teamOf(5)).not.toBe(teamOf(9));
      expect(teamOf(3)).toBe(teamOf(4));
    }
  });

  it("say when wishes contradict each other", () => {
    const ask = (wishes: Partial<TeamWishes>) =>
      dealTeams({ students: 8, size: 4, rounds: 1, ...wishes }, randomStream("abc", "teams"));
    expect(ask({ apart: [[0, 1]], together: [[1, 0]] })).toEqual({
      kind: "problem",
      reason: "apart-and-together",
    });
    const five = [
      [0, 1],
      [1, 2],
      [2, 3],
      [3, 4],
    ] as const;
    expect(ask({ together: five })).toEqual({ kind: "problem", reason: "together-too-many" });
    const nobody = [
      [0, 1],
      [0, 2],
      [1, 2],
    ] as const;
    expect(ask({ apart: nobody })).toEqual({ kind: "problem", reason: "not-found" });
  });

  it("count rounds that were held: those to come avoid their pairs", () => {
    const held = dealt({ students: 12, size: 3, rounds: 2 }).rounds;
    const { rounds, mixing, bound } = dealt({ students: 12, size: 3, rounds: 2, past: held });
    expect(rounds).toHaveLength(2);
    expect(bound).toBe(0);
    expect(mixing.objective).toBe(0);
    expect(mixingOf([...held, ...rounds], 12)).toEqual(mixing);
  });

  it.each([
    [{ students: 1 }, "students must be a whole number from 2 to 60; got 1"],
    [{ size: 1 }, "size must be a whole number from 2 to the number of students; got 1"],
    [{ rounds: 0 }, "rounds must be a whole number from 1 to 60; got 0"],
    [{ apart: [[0, 9]] as const }, "a wished student must be a number from 0 below 8; got 9"],
  ])("refuse %j", (wrong, words) => {
    expect(() =>
      dealTeams({ students: 8, size: 4, rounds: 1, ...wrong }, randomStream("a", "teams")),
    ).toThrow(words);
  });
});

// Worked by hand: two pairs meet twice, so two repeated meetings.
it("the objective counts repeated meetings, and weighs each further one more", () => {
  const same = [
    [0, 1],
    [2, 3],
  ];
  expect(mixingOf([same, same], 4)).toEqual({
    objective: 2,
    mostMeetings: 2,
    fewestMates: 1,
    repeatedPairs: 2,
  });
  expect(mixingOf([same, same, same], 4).objective).toBe(6);
  expect(
    leastObjective(4, [
      [2, 2],
      [2, 2],
      [2, 2],
      [2, 2],
    ]),
  ).toBe(2);
});
