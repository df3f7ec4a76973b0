import { describe, expect, it } from "vitest";
import { settingsSchema } from "../../../../../shared/api/app.ts";
import { moved } from "../../../../../src/screens/groups/move.tsx";
import { movedBeside } from "../../../../../src/screens/groups/room-plan.tsx";

const ids = ["a", "b", "c", "d"];

describe("the order of the room", () => {
  it.each([
    [0, 3, "bcda"],
    [3, 0, "dabc"],
    [1, 2, "acbd"],
    [2, 2, "abcd"],
  ])("has the student of place %i at place %i, the rest as before", (from, to, order) => {
    expect(moved(ids, from, to).join("")).toBe(order);
  });

  it("has a dragged student before or after the one dropped at", () => {
    expect(movedBeside(ids, new Set(["a"]), "c", 0).join("")).toBe("bacd");
    expect(movedBeside(ids, new Set(["a"]), "c", 1).join("")).toBe("bcad");
    expect(movedBeside(ids, new Set(["d"]), "a", 0).join("")).toBe("dabc");
    expect(movedBeside(ids, new Set(["b"]), "b", 1).join("")).toBe("abcd");
  });

  it("takes one to ten seats in a row", () => {
    const { seatsInRow } = settingsSchema.shape;
    const group = "0190a000-0000-7000-8000-0000000000aa";
    for (const [seats, isGood] of [
      [1, true],
      [10, true],
      [0, false],
      [11, false],
      [2.5, false],
    ] as const) {
      expect(seatsInRow.safeParse({ [group]: seats }).success).toBe(isGood);
    }
  });
});
