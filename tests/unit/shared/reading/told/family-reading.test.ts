import { describe, expect, it } from "vitest";
import { dayNumber, dayText } from "../../../../../shared/calendar/calendar.ts";
import type { Phase } from "../../../../../shared/phase/phase.ts";
import { readFamily, type WentWell } from "../../../../../shared/reading/told/family-reading.ts";
import type { GroupCounts } from "../../../../../shared/record/group-counts.ts";
import { groupCounts, type Marks, session } from "../builders.ts";

const day = (after: number) => dayText(dayNumber("2026-09-07") + after);

/** One student, sessions on following days. */
const record = (self: Marks, more: Partial<GroupCounts> = {}) =>
  groupCounts(
    self.map((_, at) => session(`t${at}`, day(at))),
    [{ self }],
    more,
  );

const kinds = (well: readonly WentWell[]) => well.map(({ kind }) => kind);
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

describe("what a family is told", () => {
  it("says of every ten times how many, with its error, from twenty answers on", () => {
    const reading = readFamily(record(Array(6).fill([7, 3, 0])), "s1", 0.8);
    expect(reading.lately).toEqual({
      first: day(0),
      last: day(5),
      sessions: 6,
      marks: 60,
      on: 42,
    });
    expect(reading.often).toMatchObject({ kind: "enough", about: 7 });
    if (reading.often?.kind !== "enough") throw new Error("Sixty answers are enough.");
    expect(reading.often.low).toBeLessThan(7);
    expect(reading.often.high).toBeGreaterThan(7);
  });

  it("says counts alone below that, and nothing of one who recorded nothing", () => {
    const early = readFamily(record([[5, 3, 0]]), "s1", 0.8);
    expect(early.often).toBeNull();
    expect(early.lately).toMatchObject({ marks: 8, on: 5 });
    expect(readFamily(record([[0, 0, 8]]), "s1", 0.8)).toMatchObject({
      lately: null,
      often: null,
      well: [],
    });
  });

  it("tells of the newest ten sessions, and of the present phase alone", () => {
    const before: Marks = Array(12).fill([2, 8, 0]);
    const now: Marks = Array(12).fill([8, 2, 0]);
    const reading = readFamily(
      record([...before, ...now], {
        phases: [phase("baseline", day(0)), phase("intervention", day(12))],
      }),
      "s1",
      0.8,
    );
    expect(reading.lately).toMatchObject({ first: day(14), sessions: 10, marks: 100, on: 80 });
    expect(kinds(reading.well)).toContain("more-than-before");
  });

  it("counts the goal in whole marks over the newest five sessions", () => {
    const held: Marks = [
      [0, 5, 0],
      [4, 1, 0],
      [4, 1, 0],
      [3, 2, 0],
      [5, 0, 0],
      [2, 3, 0],
    ];
    expect(readFamily(record(held), "s1", 0.8).well).toContainEqual({
      kind: "goal",
      reached: 3,
      of: 5,
    });
    expect(kinds(readFamily(record(held), "s1", null).well)).not.toContain("goal");
  });

  it("calls a lasting fall harder times, and no rise beside it", () => {
    const falling: Marks = Array.from({ length: 20 }, (_, at) => [20 - at, at, 0]);
    const reading = readFamily(record(falling), "s1", 0.8);
    expect(reading.harder).toBe(true);
    expect(kinds(reading.well)).not.toContain("rising");
    const rising: Marks = Array.from({ length: 20 }, (_, at) => [at, 20 - at, 0]);
    const better = readFamily(record(rising), "s1", 0.8);
    expect(better.harder).toBe(false);
    expect(better.well[0]).toMatchObject({ kind: "rising", sure: "clear" });
  });

  it("tells of the match only where it is good, and always of something", () => {
    const checks = Array.from({ length: 40 }, (_, at) => ({
      studentId: "s1",
      sessionId: `t${at % 6}`,
      day: day(at % 6),
      cue: at,
      student: at % 2 === 0 ? ("on" as const) : ("off" as const),
      seen: at % 2 === 0 ? ("on" as const) : ("off" as const),
    }));
    const marks: Marks = Array(6).fill([1, 9, 8]);
    expect(kinds(readFamily(record(marks, { checks }), "s1", 0.8).well)).toContain("match");
    expect(kinds(readFamily(record(marks), "s1", 0.8).well)).toEqual(["took-part"]);
  });
});
