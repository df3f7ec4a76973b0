import { describe, expect, it } from "vitest";
import { repairTeams, spread } from "../../../../shared/teams/repair-teams.ts";
import { keepsWishes } from "../../../../shared/teams/wishes.ts";

describe("repaired teams", () => {
  it("stay as they are where nothing is wrong", () => {
    const teams = [["a", "b"], ["c"]];
    expect(repairTeams(teams, [])).toBe(teams);
  });

  it("come of a search where no single move or exchange helps", () => {
    const teams = [["b", "e", "f"], ["c", "d"], ["a"]];
    const wishes = [
      { kind: "together", studentIds: ["b", "e"] },
      { kind: "apart", studentIds: ["a", "f"] },
      { kind: "together", studentIds: ["c", "d"] },
    ] as const;
    const stuck = wishes.map((wish) => ({ ...wish, studentIds: [...wish.studentIds] }));
    const repaired = repairTeams(teams, stuck.slice(0, 2));
    expect(keepsWishes(repaired, stuck.slice(0, 2))).toBe(true);
    expect(spread(repaired)).toBeLessThanOrEqual(1);
    // With c and d together too, a and f are left for one place of two: wishes come before sizes.
    const uneven = repairTeams(teams, stuck);
    expect(keepsWishes(uneven, stuck)).toBe(true);
    expect(spread(uneven)).toBe(2);
  });

  it("of a whole class end in a moment, also where nothing can help", () => {
    const ids = Array.from({ length: 36 }, (_, at) => `s${at}`);
    const teams = Array.from({ length: 9 }, (_, at) => ids.slice(at * 4, at * 4 + 4));
    const wishes = [{ kind: "apart" as const, studentIds: ids.slice(0, 10) }];
    const began = performance.now();
    const repaired = repairTeams(teams, wishes);
    expect(performance.now() - began).toBeLessThan(2_000);
    expect(repaired.flat().toSorted()).toEqual(ids.toSorted());
    // Ten students on nine teams: two meet, and no more than they must.
    expect(
      repaired.filter((team) => team.filter((id) => wishes[0]?.studentIds.includes(id)).length > 1),
    ).toHaveLength(1);
  });
});
