import { describe, expect, it } from "vitest";
import { savesTooMuch, savingOf } from "../../../../shared/points/saving.ts";

const days = (given: number, spent: readonly number[]) =>
  spent.map((each, at) => ({ day: `2026-03-0${at + 2}`, given, spent: each }));

describe("saving up", () => {
  it("says for how many days the median purse would last, and which share was spent", () => {
    const saving = savingOf([
      { studentId: "a", balance: 20, days: days(10, [5, 5, 0]) },
      { studentId: "b", balance: 40, days: days(10, [0, 0, 0]) },
      { studentId: "c", balance: 0, days: days(10, [10, 10, 10]) },
    ]);
    expect(saving.medianDays).toBe(2);
    expect(saving.spentShare).toBeCloseTo(40 / 90, 9);
    expect(saving.notSpending).toEqual(["b"]);
    expect(savesTooMuch(saving)).toBe(true);
  });

  it("says nothing before the third day", () => {
    const saving = savingOf([{ studentId: "a", balance: 9, days: days(9, [0, 0]) }]);
    expect(saving).toEqual({ medianDays: null, spentShare: null, notSpending: [] });
    expect(savesTooMuch(saving)).toBe(false);
  });
});
