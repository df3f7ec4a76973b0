import { describe, expect, it } from "vitest";
import type { HomeCardDay } from "../../../../shared/home/kept-card.ts";
import { mergedDay } from "../../../../shared/home/merged-day.ts";

const empty: HomeCardDay = {
  cardId: "0190a000-0000-7000-8000-0000000000aa",
  day: "2026-03-02",
  ratings: [null, null, null],
  homework: "",
  wentWell: "",
  tomorrow: "",
};

describe("a card that two windows typed on", () => {
  it("has what each of them typed, and the latest word where both did", () => {
    const mine: HomeCardDay = { ...empty, ratings: [4, 3, null], tomorrow: "Ask sooner" };
    const kept: HomeCardDay = { ...empty, ratings: [null, 1, 2], wentWell: "Began at once" };
    expect(mergedDay(empty, mine, kept)).toEqual({
      ...empty,
      ratings: [4, 3, 2],
      wentWell: "Began at once",
      tomorrow: "Ask sooner",
    });
  });

  it("shows a box that was emptied here as empty", () => {
    const began: HomeCardDay = { ...empty, ratings: [4, 3, null] };
    const mine: HomeCardDay = { ...empty, ratings: [null, 3, null] };
    expect(mergedDay(began, mine, began).ratings).toEqual([null, 3, null]);
  });

  it("leaves the space at the end of a line that is still being written", () => {
    const mine = { ...empty, wentWell: "Began " };
    const kept = { ...empty, wentWell: "Began" };
    expect(mergedDay(mine, mine, kept).wentWell).toBe("Began ");
    expect(mergedDay(mine, mine, { ...empty, wentWell: "Helped" }).wentWell).toBe("Helped");
  });
});
