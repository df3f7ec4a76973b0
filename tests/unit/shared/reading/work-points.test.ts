import { expect, test } from "vitest";
import { readStudent } from "../../../../shared/reading/student-reading.ts";
import { workPoints, workSums } from "../../../../shared/reading/work-points.ts";
import { groupCounts, session } from "./builders.ts";

const sessions = ["07", "08", "09", "10"].map((day, at) => session(`x${at}`, `2026-09-${day}`));
const work = (sessionId: string, assigned: number, completed: number, correct: number | null) => ({
  studentId: "s1",
  sessionId,
  assigned,
  completed,
  correct,
});
const counts = groupCounts(sessions, [{ self: [[7, 3, 0], null, [5, 5, 0], [9, 1, 0]] }], {
  work: [
    work("x0", 10, 8, 6),
    work("x1", 10, 5, null),
    work("x2", 0, 0, 0),
    work("x3", 4, 6, 6),
    { ...work("x3", 1, 1, 1), studentId: "s2" },
  ],
});
const { points } = readStudent(counts, "s1");
const shownFrom = (first: string) =>
  workPoints(counts, "s1", points, { first, last: "2026-09-10" });

test("work is read within the days shown, as shares that never pass the whole", () => {
  expect(
    shownFrom("2026-09-07").map(({ sessionId, done, right, rate }) => [
      sessionId,
      done,
      right,
      rate,
    ]),
  ).toEqual([
    ["x0", 0.8, 0.75, 0.7],
    ["x1", 0.5, null, null],
    ["x2", null, null, 0.5],
    ["x3", 1, 1, 0.9],
  ]);
  expect(shownFrom("2026-09-09").map(({ sessionId }) => sessionId)).toEqual(["x2", "x3"]);
});

test("correct items are held only against the sessions in which they were counted", () => {
  expect(workSums(shownFrom("2026-09-07"))).toEqual({
    assigned: 24,
    completed: 19,
    correct: 12,
    lookedAt: 14,
  });
});
