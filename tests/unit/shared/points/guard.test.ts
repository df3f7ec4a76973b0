import { describe, expect, it } from "vitest";
import { lowestStanding, type TakeInputs, takeRefusal } from "../../../../shared/points/guard.ts";

const plenty = { given: 100, taken: 0 };
const open: TakeInputs = {
  stoppedToday: false,
  running: true,
  setAside: false,
  sinceLastTakeMs: null,
  balance: 50,
  today: plenty,
  lately: plenty,
};

describe("taking points", () => {
  // The rule's own boundary cases.
  it.each([
    [0, 0, 1, "points-two-to-one-day"],
    [1, 0, 1, "points-two-to-one-day"],
    [2, 0, 1, null],
    [3, 1, 1, "points-two-to-one-day"],
    [4, 1, 1, null],
    [4, 1, 2, "points-two-to-one-day"],
  ] as const)("given %i and taken %i today, %i more: %s", (given, taken, amount, verdict) => {
    expect(takeRefusal({ ...open, today: { given, taken } }, amount)).toBe(verdict);
  });

  it("yesterday's praise is no licence for today", () => {
    const inputs = { ...open, today: { given: 0, taken: 0 }, lately: { given: 20, taken: 0 } };
    expect(takeRefusal(inputs, 1)).toBe("points-two-to-one-day");
  });

  it("today's praise does not outweigh what was taken lately", () => {
    const inputs = { ...open, today: { given: 2, taken: 0 }, lately: { given: 9, taken: 4 } };
    expect(takeRefusal(inputs, 1)).toBe("points-two-to-one-lately");
    expect(takeRefusal({ ...inputs, lately: { given: 10, taken: 4 } }, 1)).toBeNull();
  });

  it("says the first reason of several, in the order in which they matter", () => {
    const all: TakeInputs = {
      stoppedToday: true,
      running: false,
      setAside: true,
      sinceLastTakeMs: 9_999,
      balance: 0,
      today: { given: 0, taken: 0 },
      lately: { given: 0, taken: 0 },
    };
    const repaired: [Partial<TakeInputs>, string | null][] = [
      [{}, "points-stopped"],
      [{ stoppedToday: false }, "session-not-running"],
      [{ running: true }, "student-set-aside"],
      [{ setAside: false }, "points-too-soon"],
      [{ sinceLastTakeMs: 10_000 }, "points-none-left"],
      [{ balance: 1 }, "points-two-to-one-day"],
      [{ today: { given: 2, taken: 0 } }, "points-two-to-one-lately"],
      [{ lately: { given: 2, taken: 0 } }, null],
    ];
    let inputs = all;
    for (const [change, verdict] of repaired) {
      inputs = { ...inputs, ...change };
      expect(takeRefusal(inputs, 1)).toBe(verdict);
    }
  });
});

describe("the standing on the strip", () => {
  it("is the lowest student's, and warns below three to one", () => {
    const fine = { given: 90, taken: 1 };
    expect(lowestStanding([fine, { given: 5, taken: 2 }])).toEqual({ ratio: 2.5, warns: true });
    expect(lowestStanding([fine, { given: 6, taken: 2 }])).toEqual({ ratio: 3, warns: false });
    expect(lowestStanding([{ given: 5, taken: 0 }])).toBeNull();
  });
});
