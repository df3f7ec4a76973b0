import { describe, expect, it } from "vitest";
import type { Phase } from "../../../../shared/phase/phase.ts";
import { readGroup } from "../../../../shared/reading/group-reading.ts";
import { readStudent } from "../../../../shared/reading/student-reading.ts";
import type { GroupCounts } from "../../../../shared/record/group-counts.ts";
import { groupCounts, type Marks, session } from "./builders.ts";

const phase = (kind: Phase["kind"], startsOn: string) => ({
  id: kind,
  groupId: "g",
  studentId: null,
  kind,
  label: "",
  startsOn,
  draw: null,
  probes: null,
});
const days = Array.from({ length: 15 }, (_, at) => `2026-09-${String(at + 1).padStart(2, "0")}`);
const sessions = days.map((day, at) => session(`x${at}`, day));
const phases = [phase("baseline", "2026-09-01"), phase("intervention", "2026-09-06")];
const marks = (at: (place: number) => Marks[number]): Marks => days.map((_, place) => at(place));
const pair = (sessionId: string): GroupCounts["observerPairs"][number] => ({
  studentId: "s1",
  sessionId,
  cue: 1,
  first: "on",
  second: "on",
});

describe("a second observer, phase by phase", () => {
  it("is counted over the observed sessions of the phase, and does not apply to self-records", () => {
    const counts = groupCounts(
      sessions,
      [
        {
          self: marks((at) => (at < 5 ? null : [8, 2, 0])),
          observer: marks((at) => (at < 5 ? [4, 6, 0] : null)),
        },
      ],
      { phases, observerPairs: [pair("x1"), pair("x12")] },
    );
    expect(readStudent(counts, "s1").watchedTwice).toEqual([
      { kind: "computed", observed: 5, twice: 1, share: 0.2, meets: true },
      { kind: "not-computable", reason: "not-observed" },
    ]);
  });
});

describe("one probe among self-records", () => {
  const counts = groupCounts(
    sessions,
    [
      {
        self: marks((at) => (at < 5 ? [4, 6, 0] : [8, 2, 0])),
        observer: marks((at) => (at === 2 || at === 9 ? [0, 10, 0] : null)),
      },
    ],
    { phases },
  );

  it("does not stand for them, on the student's page", () => {
    const reading = readStudent(counts, "s1");
    expect(reading.phases.phases).toMatchObject([
      { source: "self", points: 5, level: { mean: expect.closeTo(0.4, 12) } },
      { source: "self", points: 10, level: { mean: expect.closeTo(0.8, 12) } },
    ]);
    expect(reading.phases.comparisons).toMatchObject([{ sourcesDiffer: false, evidence: "clear" }]);
  });

  it("nor on the group's, where the baseline is judged by its five self-recorded sessions", () => {
    const reading = readGroup(counts, ["s1"]);
    expect(reading.phases.phases).toMatchObject([{ source: "self" }, { source: "self" }]);
    expect(reading.readiness?.baseline).toMatchObject({ points: 5, decision: "ready" });
  });
});
