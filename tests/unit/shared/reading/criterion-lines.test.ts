import { expect, test } from "vitest";
import type { Phase } from "../../../../shared/phase/phase.ts";
import { readStudent } from "../../../../shared/reading/student-reading.ts";
import { groupCounts, type Marks, session } from "./builders.ts";

const days = ["07", "08", "09", "10", "11", "14", "15", "16"].map((day) => `2026-09-${day}`);
const marks: Marks = [4, 5, 6, 10, 10, 10, 10, 10].map((on) => [on, 20 - on, 0]);
const phase = (kind: Phase["kind"], startsOn: string): Phase => ({
  id: kind,
  groupId: "g",
  studentId: null,
  kind,
  label: "",
  startsOn,
  draw: null,
  probes: null,
});
const counts = groupCounts(
  days.map((day, at) => session(`x${at}`, day)),
  [{ self: marks }],
  { phases: [phase("baseline", "2026-09-07"), phase("intervention", "2026-09-10")] },
);

// By hand: baseline .20, .25, .30 has mean .25, a slope of .05 a session and a standard deviation of
// .05, so both lines move up by .0125. Fisher, Kelley & Lomas (2003) J Appl Behav Anal 36:387-406.
test("the lines drawn are baseline's, moved up and carried on session by session", () => {
  const [drawn] = readStudent(counts, "s1").criterion;
  expect(drawn).toMatchObject({ above: 3, sessions: 5, needed: 5, decision: "no-change-shown" });
  expect(drawn?.points).toHaveLength(8);
  for (const { level } of drawn?.points ?? []) expect(level).toBeCloseTo(0.2625, 12);
  const trend = drawn?.points.map((point) => point.trend) ?? [];
  const expected = [0.2125, 0.2625, 0.3125, 0.3625, 0.4125, 0.4625, 0.5125, 0.5625];
  for (const [at, height] of expected.entries()) expect(trend[at]).toBeCloseTo(height, 12);
});

test("there are none without a baseline of three sessions", () => {
  const short = {
    ...counts,
    phases: [
      phase("baseline", "2026-09-09"),
      counts.phases[1] ?? phase("intervention", "2026-09-10"),
    ],
  };
  expect(readStudent(short, "s1").criterion).toEqual([]);
  expect(readStudent({ ...counts, phases: [] }, "s1").criterion).toEqual([]);
});
