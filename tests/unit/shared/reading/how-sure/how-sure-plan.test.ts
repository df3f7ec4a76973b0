import { expect, it } from "vitest";
import { dayNumber, dayText } from "../../../../../shared/calendar/calendar.ts";
import { howSurePlan, isCut } from "../../../../../shared/reading/how-sure/how-sure-plan.ts";
import type { GroupCounts } from "../../../../../shared/record/group-counts.ts";

/** A class of one student, whose sessions have so many marks on and off. */
function classOf(...marks: readonly (readonly [on: number, off: number])[]) {
  const of = (at: 0 | 1) => marks.map((pair) => pair[at]);
  return {
    // One each Monday.
    sessions: marks.map((_, at) => ({
      id: `s${at}`,
      day: dayText(dayNumber("2026-03-02") + 7 * at),
    })),
    counts: [{ studentId: "birch", self: { on: of(0), off: of(1) } }],
  } as unknown as Pick<GroupCounts, "sessions" | "counts">;
}

it("takes the rate of the newest sessions, and says what it was before it was rounded", () => {
  const own = howSurePlan(classOf([7, 3], [6, 4], [6, 2]));
  expect(own.plan).toEqual({ cues: 10, rate: 0.7, perWeek: 1 });
  expect(own.measured).toBeCloseTo(19 / 28, 12);
  expect(isCut(own)).toBe(false);
});

it("says so where the rate is past those that leave room for a change", () => {
  for (const [marks, rate] of [
    [[39, 1], 0.9],
    [[1, 39], 0.1],
  ] as const) {
    const own = howSurePlan(classOf(marks));
    expect(own.plan.rate).toBe(rate);
    expect(own.measured).toBe(marks[0] / 40);
    expect(isCut(own)).toBe(true);
  }
  expect(isCut(howSurePlan(classOf([9, 1])))).toBe(false);
});

it("names no measured rate before the first mark", () => {
  const own = howSurePlan(classOf([0, 0]));
  expect(own).toEqual({ plan: { cues: 10, rate: 0.6, perWeek: 5 }, measured: null });
  expect(isCut(own)).toBe(false);
});

it.each([
  // The first and the last week are cut off.
  ["three a week, the first cut off and the last going on", [1, 3, 3, 3, 1], 3],
  ["two a day", [10, 10], 10],
  ["four a day are computed as two", [20], 10],
  ["a week with a day off between whole ones", [5, 5, 4, 5, 5], 5],
  ["a class that has just begun", [2], 2],
] as const)("counts sessions of a school week: %s", (_, weeks, perWeek) => {
  const days = weeks.flatMap((count, week) =>
    Array.from({ length: count }, (_, at) =>
      dayText(dayNumber("2026-03-02") + 7 * week + Math.floor((5 * at) / Math.max(5, count))),
    ),
  );
  const own = howSurePlan({
    sessions: days.map((day, at) => ({ id: `s${at}`, day })),
    counts: [{ studentId: "birch", self: { on: days.map(() => 6), off: days.map(() => 4) } }],
  } as unknown as Pick<GroupCounts, "sessions" | "counts">);
  expect(own.plan.perWeek).toBe(perWeek);
});
