import { expect, test } from "vitest";
import { attendedSessions } from "../../../../shared/reading/attended.ts";
import { groupCounts, session } from "./builders.ts";

test("a student took part where anything was counted of them, be it only missing marks", () => {
  const sessions = ["x0", "x1", "x2", "x3"].map((id, at) => session(id, `2026-09-0${at + 1}`));
  const counts = groupCounts(sessions, [
    { self: [[7, 3, 0], null, [0, 0, 10], null], observer: [null, null, null, [0, 0, 4]] },
    { self: [null, [1, 1, 0], null, null] },
  ]);
  const ids = (studentId: string) => attendedSessions(counts, studentId).map(({ id }) => id);
  expect(ids("s1")).toEqual(["x0", "x2", "x3"]);
  expect(ids("s2")).toEqual(["x1"]);
  expect(ids("nobody")).toEqual([]);
});
