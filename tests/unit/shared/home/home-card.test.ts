import { describe, expect, it } from "vitest";
import {
  homeCardScaleSchema,
  homeCardShare,
  homePoints,
  printedRating,
  type Rating,
  ratingPrinted,
  ratings,
  usualWeights,
} from "../../../../shared/home/home-card.ts";
import { homeCardSchema } from "../../../../shared/home/kept-card.ts";

/** Cells that give so many points and take so many, with weights of ten. */
function pointsOf(gives: number, takes: number): number {
  const cells: Rating[] = [
    ...new Array<Rating>(gives / 10).fill(4),
    ...new Array<Rating>(takes / 10).fill(0),
  ];
  return homePoints(cells, [-10, 0, 0, 0, 10]);
}

// The rows of the project's own table (rules of practice, no source).
it.each([
  [60, 20, 40],
  [60, 50, 30],
  [10, 50, 5],
  [0, 50, 0],
])("cells that give %i and take %i make %i home points", (gives, takes, points) => {
  expect(pointsOf(gives, takes)).toBe(points);
});

describe("a day's card", () => {
  it("has no points and no share when nothing was rated, and loses nobody anything", () => {
    expect(homePoints([null, null], [-10, -5, 0, 5, 10])).toBe(0);
    expect(homeCardShare([null, null])).toEqual({ share: null, rated: 0, cells: 2 });
  });

  it("counts rated cells only", () => {
    expect(homePoints([4, null, 3, 0], usualWeights)).toBe(35);
    expect(homeCardShare([4, null, 3, 0])).toEqual({ share: 7 / 12, rated: 3, cells: 4 });
  });

  it("is never below zero, whatever is rated", () => {
    for (const one of ratings) {
      for (const other of ratings) {
        expect(homePoints([one, other], [-20, -10, 0, 5, 10])).toBeGreaterThanOrEqual(0);
      }
    }
  });
});

it("the printed figure and the stored rating say the same, whichever end is good", () => {
  for (const goodEnd of ["five", "one"] as const) {
    for (const rating of ratings) {
      expect(ratingPrinted(printedRating(rating, goodEnd), goodEnd)).toBe(rating);
    }
  }
  expect(printedRating(4, "five")).toBe(5);
  expect(ratingPrinted(6, "five")).toBeNull();
});

it("only the two lowest ratings may take points", () => {
  const scale = { kind: "scale", goodEnd: "five" } as const;
  expect(homeCardScaleSchema.safeParse({ ...scale, weights: [-5, -2, 0, 5, 10] }).success).toBe(
    true,
  );
  expect(homeCardScaleSchema.safeParse({ ...scale, weights: [0, 0, -1, 5, 10] }).success).toBe(
    false,
  );
});

it("no goal stands on a card twice, or a week would count it twice", () => {
  const card = (goals: string[]) => ({
    goals,
    periods: ["Reading", "Sums"],
    scale: { kind: "yes-no", goodEnd: "five", weights: [...usualWeights] },
    homework: false,
    selfRecord: false,
  });
  expect(homeCardSchema.safeParse(card(["Begin at once", "Stay seated"])).success).toBe(true);
  expect(homeCardSchema.safeParse(card(["Begin at once", "Begin at once"])).success).toBe(false);
});
