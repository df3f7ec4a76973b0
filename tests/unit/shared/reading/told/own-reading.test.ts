import { expect, it } from "vitest";
import { readOwn } from "../../../../../shared/reading/told/own-reading.ts";
import { groupCounts, type Marks, session } from "../builders.ts";

const days = ["2026-11-02", "2026-11-03", "2026-11-04", "2026-11-05", "2026-11-06", "2026-11-09"];
const record = (self: Marks, observer?: Marks) =>
  groupCounts(
    self.map((_, at) => session(`t${at}`, days[at] ?? "2026-11-10")),
    [observer === undefined ? { self } : { self, observer }],
  );

it("shows a child the newest five sessions with answers, oldest first", () => {
  const own = readOwn(record(Array.from({ length: 6 }, (_, at) => [at + 1, 1, 0] as const)), "s1");
  expect(own.sessions.map(({ day, on, marks }) => [day, on, marks])).toEqual([
    ["2026-11-03", 2, 3],
    ["2026-11-04", 3, 4],
    ["2026-11-05", 4, 5],
    ["2026-11-06", 5, 6],
    ["2026-11-09", 6, 7],
  ]);
  expect(own).toMatchObject({ on: 20, marks: 25, share: 0.8 });
});

it("gives a percentage from twenty answers on and no sooner", () => {
  expect(readOwn(record([[10, 9, 5]]), "s1")).toMatchObject({ marks: 19, share: null });
  expect(readOwn(record([[10, 10, 0]]), "s1")).toMatchObject({ marks: 20, share: 0.5 });
});

it("leaves out what only an adult saw, and sessions without an answer", () => {
  const own = readOwn(record([[0, 0, 9], null, [3, 1, 0]], [null, [5, 5, 0], null]), "s1");
  expect(own.sessions.map(({ sessionId }) => sessionId)).toEqual(["t2"]);
  expect(readOwn(record([]), "unknown").sessions).toEqual([]);
});
