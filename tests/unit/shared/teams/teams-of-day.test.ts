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
    expect(teamsOfDay(round, all, [])).toEqual(round);
  });

  it("take the absent out, and nobody moves while sizes differ by one", () => {
    const here = all.filter((id) => id !== "b");
    expect(teamsOfDay(round, here, [])).toEqual([["a", "c", "d"], round[1], round[2]]);
  });

  it("move somebody where a team would be two smaller, and never against a wish", () => {
    const here = all.filter((id) => !["a", "b"].includes(id));
    const [first = []] = teamsOfDay(round, here, []);
    expect(first).toEqual(["c", "d", "l"]);
    const wishes: TeamWish[] = [
      { kind: "apart", studentIds: ["c", "l"] },
      { kind: "together", studentIds: ["k", "j"] },
    ];
    expect(teamsOfDay(round, here, wishes)[0]).toEqual(["c", "d", "i"]);
  });

  it("put who has no team yet into the smallest", () => {
    expect(teamsOfDay([["a", "b"], ["c"]], ["a", "b", "c", "new"], [])).toEqual([
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
        const today = teamsOfDay(teams, here, []);
        expect(today.flat().sort()).toEqual([...here].sort());
        const sizes = today.map((team) => team.length);
        expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
      }),
    );
  });

  it("break no wish that the round kept (law)", () => {
    const wishes: TeamWish[] = [
      { kind: "apart", studentIds: ["a", "e", "i"] },
      { kind: "together", studentIds: ["b", "c"] },
    ];
    fc.assert(
      fc.property(fc.subarray(all), (here) => {
        expect(keepsWishes(teamsOfDay(round, here, wishes), wishes)).toBe(true);
      }),
    );
  });
});

it("wishes become pairs of places; who is not in the class is left out", () => {
  const wishes: TeamWish[] = [
    { kind: "apart", studentIds: ["c", "a", "gone"] },
    { kind: "together", studentIds: ["a", "b"] },
  ];
  expect(wishedPairs(wishes, "apart", ["a", "b", "c"])).toEqual([[2, 0]]);
  expect(wishedPairs(wishes, "together", ["a", "b", "c"])).toEqual([[0, 1]]);
});
