import { expect, it } from "vitest";
import { lastRate } from "../../../../shared/reading/last-rate.ts";
import { groupCounts, session } from "./builders.ts";

const days = [session("a", "2026-11-24"), session("b", "2026-11-25"), session("c", "2026-11-26")];

it("adds up the newest seatwork that has marks", () => {
  const counts = groupCounts(days, [
    { self: [[9, 1, 0], [6, 4, 0], null] },
    {
      self: [
        [9, 1, 0],
        [2, 3, 5],
        [0, 0, 8],
      ],
    },
  ]);
  expect(lastRate(counts)).toEqual({ sessionId: "b", day: "2026-11-25", on: 8, marks: 15 });
});

it("does not speak of what an adult observed, nor of nothing", () => {
  const observed = { ...session("d", "2026-11-27"), kind: "probe" } as const;
  expect(lastRate(groupCounts([observed], [{ self: [[1, 1, 0]] }]))).toBeNull();
  expect(lastRate(groupCounts([], [{ self: [] }]))).toBeNull();
});
