import { describe, expect, it } from "vitest";
import { readPresent } from "../../../../shared/analysis/statements/record-reading.ts";
import { dayNumber, dayText } from "../../../../shared/calendar/calendar.ts";
import type { Phase } from "../../../../shared/phase/phase.ts";
import { flagsOf } from "../../../../shared/reading/flags.ts";
import { readGroup } from "../../../../shared/reading/group-reading.ts";
import { phasesFor } from "../../../../shared/reading/phase-spans.ts";
import { minuteOfDay, sessionsOf } from "../../../../shared/reading/session-counts.ts";
import { readStudent } from "../../../../shared/reading/student-reading.ts";
import type { CheckPair } from "../../../../shared/record/group-counts.ts";
import { groupCounts, type Marks, session } from "./builders.ts";

const days = ["2026-09-07", "2026-09-08", "2026-09-09", "2026-09-10", "2026-09-11", "2026-09-14"];
const sessions = days.map((day, at) => session(`x${at}`, day));
const steady: Marks = days.map(() => [7, 3, 0]);

const phase = (kind: Phase["kind"], startsOn: string, studentId: string | null = null): Phase => ({
  id: `${kind} ${startsOn}`,
  groupId: "g",
  studentId,
  kind,
  label: "",
  startsOn,
  draw: null,
  probes: null,
});

const check = (
  sessionId: string,
  cue: number,
  student: "on" | "off",
  seen: "on" | "off",
): CheckPair => ({
  studentId: "s1",
  sessionId,
  day: days[Number(sessionId.slice(1))] ?? "",
  cue,
  student,
  seen,
});

/** Every number anywhere inside a value. */
function numbersIn(value: unknown): number[] {
  if (typeof value === "number") return [value];
  if (value instanceof Float64Array) return [...value];
  if (typeof value === "object" && value !== null) return Object.values(value).flatMap(numbersIn);
  return [];
}

describe("sessions from columns", () => {
  it("leave out sessions without the student, and keep both sources apart", () => {
    const counts = groupCounts(sessions, [
      {
        self: [[7, 3, 0], null, [5, 4, 1], null, null, null],
        observer: [null, [2, 8, 0], null, null, null, null],
      },
    ]);
    const found = sessionsOf(counts, "s1");
    expect(found.map(({ sessionId, source }) => `${sessionId} ${source}`)).toEqual([
      "x0 self",
      "x2 self",
      "x1 observer",
    ]);
    expect(found[1]).toMatchObject({ on: 5, off: 4, missing: 1, day: "2026-09-09" });
  });

  it("take the local time of day, also before midnight in UTC", () => {
    expect(minuteOfDay(session("x", "2026-09-07", 605))).toBe(605);
    expect(minuteOfDay(session("x", "2026-09-07", 30))).toBe(30);
  });
});

describe("phases of a student", () => {
  it("are the group's, or the student's own alone", () => {
    const group = [phase("intervention", "2026-09-09"), phase("baseline", "2026-09-01")];
    const own = phase("baseline", "2026-09-05", "s2");
    const kinds = (studentId: string | null) =>
      phasesFor([...group, own], studentId).map(({ startsOn }) => startsOn);
    expect(kinds("s1")).toEqual(["2026-09-01", "2026-09-09"]);
    expect(kinds("s2")).toEqual(["2026-09-05"]);
    expect(kinds(null)).toEqual(["2026-09-01", "2026-09-09"]);
  });
});

describe("a student's reading", () => {
  it("says what is missing, and holds no NaN, for none, one, all on and all off", () => {
    const cases: Marks[] = [
      days.map(() => null),
      [[3, 1, 0], null, null, null, null, null],
      days.map(() => [10, 0, 0]),
      days.map(() => [0, 10, 0]),
      days.map(() => [0, 0, 10]),
      days.map(() => [0, 0, 0]),
    ];
    for (const self of cases) {
      const phases = [phase("baseline", "2026-09-01"), phase("intervention", "2026-09-09")];
      const counts = groupCounts(sessions, [{ self }], { phases });
      const reading = readStudent(counts, "s1");
      expect(numbersIn(reading).every(Number.isFinite)).toBe(true);
      expect(numbersIn(readGroup(counts, ["s1"])).every(Number.isFinite)).toBe(true);
    }
  });

  it("never lets an observer's marks into the self-records", () => {
    const counts = groupCounts(sessions, [{ self: steady, observer: days.map(() => [0, 10, 0]) }]);
    const reading = readStudent(counts, "s1");
    expect(reading.self.counts).toEqual({ on: 42, off: 18, missing: 0 });
    expect(new Set(reading.points.map(({ source }) => source))).toEqual(
      new Set(["self", "observer"]),
    );
    expect(reading.latest?.source).toBe("self");
  });

  it("does not count missing marks as off task", () => {
    const counts = groupCounts(sessions, [{ self: days.map(() => [6, 2, 2]) }]);
    const { self } = readStudent(counts, "s1");
    expect(self.overall).toMatchObject({ kind: "enough", rate: 0.75 });
    expect(self.response).toMatchObject({ kind: "enough", rate: 0.8 });
    // All missing off task: 6 of 10; all on task: 8 of 10.
    expect(self.sensitivity.rate).toMatchObject({ bounds: { lower: 0.6, upper: 0.8 } });
  });

  it("keeps both baselines for the advice, whichever the phases are compared by", () => {
    const both = groupCounts(
      sessions,
      [
        {
          self: [
            [6, 4, 0],
            [7, 3, 0],
            [8, 2, 0],
            [7, 3, 0],
            [8, 2, 0],
            [9, 1, 0],
          ],
          observer: [
            [4, 6, 0],
            [5, 5, 0],
            [6, 4, 0],
            [7, 3, 0],
            [7, 3, 0],
            [7, 3, 0],
          ],
        },
      ],
      { phases: [phase("baseline", "2026-09-07"), phase("intervention", "2026-09-10")] },
    );
    const { advice, phases } = readStudent(both, "s1");
    expect(phases.phases.map(({ source }) => source)).toEqual(["observer", "observer"]);
    expect(advice.baseline.self).toBeCloseTo(0.7, 12);
    expect(advice.baseline.observer).toBeCloseTo(0.5, 12);
  });

  it("counts sessions since the last check, and takes a baseline that was observed", () => {
    const counts = groupCounts(
      sessions,
      [
        {
          self: [null, null, null, [7, 3, 0], [8, 2, 0], [9, 1, 0]],
          observer: [[4, 6, 0], [5, 5, 0], [6, 4, 0], null, null, null],
        },
      ],
      {
        phases: [phase("baseline", "2026-09-07"), phase("intervention", "2026-09-10")],
        checks: [check("x3", 1, "on", "on"), check("x4", 2, "on", "off")],
      },
    );
    const { advice, phases } = readStudent(counts, "s1");
    expect(advice.sessionsSinceCheck).toBe(1);
    expect(advice.baseline.observer).toBeCloseTo(0.5, 12);
    expect(advice.baseline.self).toBeNull();
    expect(phases.comparisons[0]?.sourcesDiffer).toBe(true);
    expect(phases.caution).toBe("one-change-cannot-show-cause");
  });

  it("words phases with fewer than three sessions as too few to compare", () => {
    const phases = [phase("baseline", "2026-09-07"), phase("intervention", "2026-09-09")];
    const reading = readStudent(groupCounts(sessions, [{ self: steady }], { phases }), "s1");
    expect(reading.phases.comparisons).toMatchObject([{ evidence: null }]);
  });

  it("words phases without any overlap as clearly different", () => {
    const long = Array.from({ length: 12 }, (_, at) =>
      session(`x${at}`, `2026-09-${String(at + 1).padStart(2, "0")}`),
    );
    const marks: Marks = long.map((_, at) => (at < 6 ? [2, 8, 0] : [9, 1, 0]));
    const phases = [phase("baseline", "2026-09-01"), phase("intervention", "2026-09-07")];
    expect(
      readStudent(groupCounts(long, [{ self: marks }], { phases }), "s1").phases.comparisons,
    ).toMatchObject([{ evidence: "clear" }]);
  });
});

describe("a group's reading", () => {
  it("keeps the roster's order whatever the rates", () => {
    const counts = groupCounts(sessions, [
      { self: days.map(() => [1, 9, 0]) },
      { self: days.map(() => [9, 1, 0]) },
      { self: days.map(() => [5, 5, 0]) },
    ]);
    const { students, pooled } = readGroup(counts, ["s3", "s1", "s2"]);
    expect(students.map(({ studentId }) => studentId)).toEqual(["s3", "s1", "s2"]);
    expect(pooled.overall).toMatchObject({ kind: "enough", rate: 0.5, marks: 180 });
  });

  it("shows an observer's marks of a student who recorded nothing, and says so", () => {
    const counts = groupCounts(sessions, [{ self: days.map(() => null), observer: steady }]);
    const [glance] = readGroup(counts, ["s1"]).students;
    expect(glance?.observedOnly).toBe(true);
    expect(glance?.sessions.rate).toHaveLength(6);
  });

  it("judges the baseline's readiness on its own sessions", () => {
    const phases = [phase("baseline", "2026-09-07"), phase("intervention", "2026-09-11")];
    const { readiness } = readGroup(groupCounts(sessions, [{ self: steady }], { phases }), ["s1"]);
    expect(readiness?.baseline).toMatchObject({ points: 4, decision: "ready-with-reservations" });
  });
});

describe("flags", () => {
  it("name few data and low agreement with their numbers", () => {
    const checks = Array.from({ length: 12 }, (_, at) =>
      check("x0", at + 1, "on", at < 7 ? "on" : "off"),
    );
    const self: Marks = [[7, 3, 0], [6, 4, 0], null, null, null, null];
    const [glance] = readGroup(groupCounts(sessions, [{ self }], { checks }), ["s1"]).students;
    expect(glance?.flags).toEqual([
      { kind: "few-sessions", have: 2, need: 5 },
      { kind: "low-agreement", share: 7 / 12, compared: 12 },
    ]);
  });

  it("point out unanswered cues of the recent sessions, not of long ago", () => {
    const many = Array.from({ length: 60 }, (_, at) =>
      session(`m${at}`, dayText(dayNumber("2026-01-05") + at)),
    );
    const answered = (recently: boolean): Marks =>
      many.map((_, at) => (at < 40 === recently ? [1, 1, 8] : [5, 5, 0]));
    const kinds = (self: Marks) =>
      readGroup(groupCounts(many, [{ self }]), ["s1"]).students[0]?.flags.map(({ kind }) => kind);
    expect(kinds(answered(false))).toEqual(["few-answers"]);
    // Forty of these sixty sessions have gaps, none of the newest twenty.
    expect(kinds(answered(true))).toEqual([]);
  });

  it("point out a falling rate only where it is clear two weeks running", () => {
    const held = Array.from({ length: 15 }, (_, at) =>
      session(`w${at}`, dayText(dayNumber("2026-09-07") + Math.floor(at / 5) * 7 + (at % 5))),
    );
    const kinds = (self: Marks) =>
      readGroup(groupCounts(held.slice(0, self.length), [{ self }]), ["s1"]).students[0]?.flags.map(
        ({ kind }) => kind,
      );
    const falling: Marks = held.map((_, at) => [19 - at, 1 + at, 0]);
    const wavering: Marks = held.map((_, at) => (at % 2 === 0 ? [7, 3, 0] : [6, 4, 0]));
    expect(kinds(falling)).toEqual(["rate-falling"]);
    expect(kinds(falling.slice(0, 10))).toEqual([]);
    expect(kinds(wavering)).toEqual([]);
  });

  it("are none for a steady student with good agreement", () => {
    const counts = groupCounts(sessions, [{ self: steady }]);
    const { self, recentAgreement } = readStudent(counts, "s1");
    const present = readPresent(null, sessionsOf(counts, "s1"));
    expect(flagsOf({ ...self, recentResponse: self.response }, present, recentAgreement)).toEqual(
      [],
    );
  });
});
