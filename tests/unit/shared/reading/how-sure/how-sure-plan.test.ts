import { expect, it } from "vitest";
import { howSurePlan, isCut } from "../../../../../shared/reading/how-sure/how-sure-plan.ts";
import type { GroupCounts } from "../../../../../shared/record/group-counts.ts";

/** A class of one student, whose sessions have so many marks on and off. */
function classOf(...marks: readonly (readonly [on: number, off: number])[]) {
  const of = (at: 0 | 1) => marks.map((pair) => pair[at]);
  return {
    sessions: marks.map((_, at) => ({ id: `s${at}` })),
    counts: [{ studentId: "birch", self: { on: of(0), off: of(1) } }],
  } as unknown as Pick<GroupCounts, "sessions" | "counts">;
}

it("takes the rate of the newest sessions, and says what it was before it was rounded", () => {
  const own = howSurePlan(classOf([7, 3], [6, 4], [6, 2]));
  expect(own.plan).toEqual({ cues: 10, rate: 0.7 });
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
  expect(own).toEqual({ plan: { cues: 10, rate: 0.6 }, measured: null });
  expect(isCut(own)).toBe(false);
});
