import { describe, expect, it } from "vitest";
import { nothingPaid, settle, takenBack } from "../../../../shared/points/settle.ts";

describe("settling", () => {
  it("pays what a session is worth once", () => {
    const first = settle(nothingPaid, 8, 0);
    expect(first).toEqual({ due: 8, revision: 1, amount: 8, forgiven: 0 });
    expect(settle({ due: 8, revision: 1, forgiven: 0 }, 8, 8)).toBeNull();
  });

  it("moves only the difference", () => {
    const paid = { due: 8, revision: 1, forgiven: 0 };
    expect(settle(paid, 11, 8)).toEqual({ due: 11, revision: 2, amount: 3, forgiven: 0 });
    expect(settle(paid, 6, 8)).toEqual({ due: 6, revision: 2, amount: -2, forgiven: 0 });
  });

  it("owes nothing for what was spent, and makes that good before it pays again", () => {
    // 8 paid and 6 spent: a correction down to 3 takes the 2 that are left and forgives 3.
    const down = settle({ due: 8, revision: 1, forgiven: 0 }, 3, 2);
    expect(down).toEqual({ due: 3, revision: 2, amount: -2, forgiven: 3 });
    expect(settle({ due: 3, revision: 2, forgiven: 3 }, 5, 0)).toEqual({
      due: 5,
      revision: 3,
      amount: 0,
      forgiven: -2,
    });
    expect(settle({ due: 3, revision: 2, forgiven: 3 }, 9, 0)).toEqual({
      due: 9,
      revision: 3,
      amount: 3,
      forgiven: -3,
    });
  });

  it("refuses what is no worth", () => {
    expect(() => settle(nothingPaid, -1, 0)).toThrow(
      "due must be a whole number from 0 up; got -1.",
    );
    expect(() => settle(nothingPaid, 1, -2)).toThrow("balance must be");
  });

  it("takes a press back as far as the balance reaches", () => {
    expect(takenBack(3, 2)).toEqual({ amount: -2, forgiven: 1 });
    expect(takenBack(3, 0)).toEqual({ amount: 0, forgiven: 3 });
    expect(takenBack(3, 9)).toEqual({ amount: -3, forgiven: 0 });
  });
});
