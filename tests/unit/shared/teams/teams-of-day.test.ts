import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { TeamWish } from "../../../../shared/teams/kept.ts";
import { teamsOfDay } from "../../../../shared/teams/teams-of-day.ts";
import { keepsWishes, wishedPairs } from "../../../../shared/teams/wishes.ts";

const round = [
  ["a", "b", "c", "d"],
  ["e", "f", "g", "h"],
  ["i", "j", "k", "l"],
];
const all = round.flat();

describe("the teams of a day", () => {
  it("are the round's own while everybody is here", () => {
    expect(teamsOfDay(round, all, [])).toEqual({ teams: round, unmet: [], isUneven: false });
  });

  it("take the absent out, and nobody moves while sizes differ by one", () => {
    const here = all.filter((id) => id !== "b");
    expect(teamsOfDay(round, here, []).teams).toEqual([["a", "c", "d"], round[1], round[2]]);
  });

  it("move somebody where a team would be two smaller, and never against a wish", () => {
    const here = all.filter((id) => !["a", "b"].includes(id));
    const [first = []] = teamsOfDay(round, here, []).teams;
    expect(first).toEqual(["c", "d", "l"]);
    const wishes: TeamWish[] = [
      { kind: "apart", studentIds: ["c", "l"] },
      { kind: "together", studentIds: ["k", "j"] },
    ];
    expect(teamsOfDay(round, here, wishes).teams[0]).toEqual(["c", "d", "i"]);
  });

  it("put who has no team yet into the smallest", () => {
    expect(teamsOfDay([["a", "b"], ["c"]], ["a", "b", "c", "new"], []).teams).toEqual([
      ["a", "b"],
      ["c", "new"],
    ]);
  });

  it("hold everybody who is here once, in sizes that differ by one at most (law)", () => {
    fc.assert(
      fc.property(fc.subarray(all), fc.integer({ min: 1, max: 5 }), (here, size) => {
        const teams = Array.from({ length: Math.ceil(all.length / size) }, (_, at) =>
          all.slice(at * size, (at + 1) * size),
        );
        const today = teamsOfDay(teams, here, []).teams;
        expect(today.flat().sort()).toEqual([...here].sort());
        const sizes = today.map((team) => team.length);
        expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
      }),
    );
  });

  it("move others where a new student fits nowhere beside them", () => {
    const teams = [
      ["a", "b"],
      ["c", "d"],
    ];
    const wishes: TeamWish[] = [
      { kind: "apart", studentIds: ["a", "x"] },
      { kind: "apart", studentIds: ["c", "x"] },
    ];
    const today = teamsOfDay(teams, ["a", "b", "c", "d", "x"], wishes);
    expect(keepsWishes(today.teams, wishes)).toBe(true);
    expect(today).toMatchObject({ unmet: [], isUneven: false });
  });

  it("say which wish cannot hold, and where sizes cannot be evened", () => {
    const apart: TeamWish = { kind: "apart", studentIds: ["a", "c", "x"] };
    const two = [["a", "b"], ["c"]];
    expect(teamsOfDay(two, ["a", "b", "c", "x"], [apart]).unmet).toEqual([apart]);
    const together: TeamWish = { kind: "together", studentIds: ["a", "b", "c", "d"] };
    const today = teamsOfDay(round.slice(0, 2), ["a", "b", "c", "d", "h"], [together]);
    expect(today).toEqual({
      teams: [["a", "b", "c", "d"], ["h"]],
      unmet: [],
      isUneven: true,
    });
  });

  it("never break a wish or leave sizes uneven in silence, nor where it need not be (law)", () => {
    const few = ["a", "b", "c", "d", "e", "f"];
    const wish = fc.record({
      kind: fc.constantFrom("apart" as const, "together" as const),
      studentIds: fc.subarray(few, { minLength: 2, maxLength: 4 }),
    });
    const teamAt = fc.integer({ min: -1, max: 2 });
    fc.assert(
      fc.property(
        fc.array(teamAt, { minLength: 6, maxLength: 6 }),
        fc.subarray(few, { minLength: 1 }),
        fc.array(wish, { maxLength: 3 }),
        (dealt, here, wishes) => {
          const teams = [0, 1, 2].map((team) => few.filter((_, at) => dealt[at] === team));
          const today = teamsOfDay(teams, here, wishes);
          expect(today.teams.flat().sort()).toEqual([...here].sort());
          expect(today.unmet.length === 0).toBe(keepsWishes(today.teams, wishes));
          expect(today.isUneven).toBe(!isEven(today.teams));
          const all = everyTeams(here, 3).filter((each) => keepsWishes(each, wishes));
          if (all.length > 0) expect(today.unmet).toEqual([]);
          if (all.some(isEven)) expect(today.isUneven).toBe(false);
        },
      ),
    );
  });

  it("break no wish that the round kept (law)", () => {
    const wishes: TeamWish[] = [
      { kind: "apart", studentIds: ["a", "e", "i"] },
      { kind: "together", studentIds: ["b", "c"] },
    ];
    fc.assert(
      fc.property(fc.subarray(all), (here) => {
        const today = teamsOfDay(round, here, wishes);
        expect(keepsWishes(today.teams, wishes)).toBe(true);
        expect(today.unmet).toEqual([]);
      }),
    );
  });
});

function isEven(teams: readonly (readonly string[])[]): boolean {
  const sizes = teams.map((team) => team.length);
  return Math.max(...sizes) - Math.min(...sizes) <= 1;
}

/** Every way to put students into so many teams. */
function everyTeams(students: readonly string[], teams: number): string[][][] {
  const [first, ...others] = students;
  if (first === undefined) return [Array.from({ length: teams }, () => [])];
  return everyTeams(others, teams).flatMap((rest) =>
    rest.map((_, to) => rest.map((team, at) => (at === to ? [first, ...team] : team))),
  );
}

it("wishes become pairs of places; who is not in the class is left out", () => {
  const wishes: TeamWish[] = [
    { kind: "apart", studentIds: ["c", "a", "gone"] },
    { kind: "together", studentIds: ["a", "b"] },
  ];
  expect(wishedPairs(wishes, "apart", ["a", "b", "c"])).toEqual([[2, 0]]);
  expect(wishedPairs(wishes, "together", ["a", "b", "c"])).toEqual([[0, 1]]);
});
