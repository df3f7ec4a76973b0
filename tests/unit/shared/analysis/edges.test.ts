import { describe, expect, it } from "vitest";
import {
  presentSensitivity,
  presentTrend,
} from "../../../../shared/analysis/phases/present-trend.ts";
import { analyseGroup, analyseStudent } from "../../../../shared/analysis/summary.ts";
import { dayNumber, dayText } from "../../../../shared/calendar/calendar.ts";
import type { SessionCount } from "../../../../shared/record/session-count.ts";
import { logisticTrend } from "../../../../shared/statistics/logistic.ts";
import { numbersIn } from "../../../property/analysis/any-sessions.ts";

/** Sessions `every` days apart from a Monday on, with these marks on task of ten. */
const sessionsOf = (on: number[], every = 1, missing = 0): SessionCount[] =>
  on.map((value, at) => {
    const day = dayNumber("2024-09-02") + at * every;
    return {
      sessionId: `s${at}`,
      startedAt: day * 86_400_000,
      day: dayText(day),
      on: value,
      off: 10 - value - missing,
      missing,
      source: "self",
      minuteOfDay: at % 2 === 0 ? 540 : 660,
    };
  });

const finite = (value: unknown) => expect(numbersIn(value).every(Number.isFinite)).toBe(true);

describe("reading a student with little or odd data", () => {
  it("says what is missing when there is nothing", () => {
    const found = analyseStudent([]);
    expect(found.overall).toEqual({ kind: "not-enough", reason: "no-marks", have: 0, need: 1 });
    expect(found.response).toEqual({ kind: "not-enough", reason: "no-cues", have: 0, need: 1 });
    expect(found.trend).toEqual({ kind: "not-enough", reason: "few-sessions", have: 0, need: 5 });
    expect(found.weekChange.kind).toBe("not-enough");
    expect(found.weeks).toEqual([]);
  });

  it.each([1, 2, 3, 4])("shows rates but no trend for %i sessions", (count) => {
    const found = analyseStudent(sessionsOf([7, 3, 8, 5].slice(0, count)));
    expect(found.overall.kind).toBe("enough");
    const few = { kind: "not-enough", reason: "few-sessions", have: count, need: 5 };
    expect(found.trend).toEqual(few);
    expect(found.weekChange).toEqual(few);
    expect(found.logistic).toEqual(few);
    expect(found.patterns.hour).toEqual(few);
    finite(found);
  });

  it("does not count sessions in which nobody recorded anything", () => {
    const blank = sessionsOf([0, 0, 0], 1, 10);
    const found = analyseStudent([
      ...sessionsOf([7, 3, 8, 5]),
      ...blank.map((s, at) => ({ ...s, sessionId: `b${at}` })),
    ]);
    expect(found.trend).toMatchObject({ reason: "few-sessions", have: 4 });
    expect(found.sessions.filter(({ rate }) => rate.kind === "not-enough")).toHaveLength(3);
    finite(found);
  });

  it("has no trend when all sessions were on one day", () => {
    const found = analyseStudent(sessionsOf([1, 4, 6, 8, 9, 10], 0));
    expect(found.trend).toEqual({ kind: "not-enough", reason: "few-days", have: 1, need: 2 });
    expect(found.logistic).toEqual({ kind: "not-enough", reason: "few-days", have: 1, need: 2 });
    expect(found.weekChange).toEqual({ kind: "not-enough", reason: "few-weeks", have: 1, need: 2 });
  });

  it.each([
    ["on", 10],
    ["off", 0],
  ])("reads a record that is all %s task as level, and claims nothing", (_kind, on) => {
    const found = analyseStudent(sessionsOf(Array.from({ length: 12 }, () => on)));
    expect(found.trend).toMatchObject({
      kind: "enough",
      slopePointsPerWeek: 0,
      p: 1,
      allAlike: true,
      direction: "level",
      evidence: "cannot-tell",
    });
    expect(found.logistic).toMatchObject({ kind: "enough", method: "firth" });
    expect(found.weekChange).toMatchObject({ difference: 0, evidence: "cannot-tell" });
    finite(found);
  });

  it("sees a clear rise, in points per week", () => {
    // One mark in ten more each day is 70 points in seven days.
    const found = analyseStudent(sessionsOf([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]));
    if (found.trend.kind === "not-enough") throw new Error(found.trend.reason);
    expect(found.trend.slopePointsPerWeek).toBeCloseTo(70, 10);
    expect(found.trend).toMatchObject({
      direction: "up",
      evidence: "clear",
      sessions: 10,
      days: 9,
    });
    expect(found.trend.line[0].rate).toBeCloseTo(0.1, 12);
    expect(found.trend.line[1].rate).toBeCloseTo(1, 12);
  });

  it("compares with the last week that has marks when weeks lie between", () => {
    const before = sessionsOf([2, 3, 2, 3, 2]);
    const after = sessionsOf([8, 9, 8, 9, 8]).map((session) => ({
      ...session,
      sessionId: `later ${session.sessionId}`,
      day: dayText(dayNumber(session.day) + 28),
      startedAt: session.startedAt + 28 * 86_400_000,
    }));
    expect(analyseStudent([...before, ...after]).weekChange).toMatchObject({
      week: "2024-09-30",
      before: "2024-09-02",
      weeksApart: 4,
      direction: "up",
      evidence: "clear",
    });
  });

  it("stays finite for 5,000 sessions, several a day", () => {
    const many = Array.from({ length: 5000 }, (_, at) => (at * 7919) % 11);
    const found = analyseStudent(
      sessionsOf(many).map((session, at) => ({
        ...session,
        day: dayText(dayNumber("2010-09-06") + Math.floor(at / 3)),
      })),
    );
    expect(found.trend.kind).toBe("enough");
    finite(found);
  });

  it("keeps the student's marks and an observer's apart", () => {
    const own = sessionsOf([9, 9, 9, 9, 9]);
    const seen = sessionsOf([4, 4, 4, 4, 4]).map((s) => ({ ...s, source: "observer" as const }));
    expect(analyseStudent([...own, ...seen]).overall).toMatchObject({ rate: 0.9, sessions: 5 });
    expect(analyseStudent([...own, ...seen], { source: "observer" }).overall).toMatchObject({
      rate: 0.4,
    });
  });
});

describe("missing marks", () => {
  it("never count as off task, and are shown as bounds", () => {
    const found = analyseStudent(sessionsOf([5, 5, 5, 5, 5, 5], 1, 5));
    expect(found.overall).toMatchObject({ rate: 1 });
    expect(found.response).toMatchObject({ rate: 0.5, marks: 30, cues: 60 });
    expect(found.sensitivity.rate).toMatchObject({
      bounds: { lower: 0.5, upper: 1 },
      changes: true,
    });
  });

  it("change a reading that hangs on them, and leave one that does not", () => {
    const rising = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];
    const readOf = (sessions: SessionCount[]) =>
      presentSensitivity(presentTrend([], sessions, "2030-01-01"), sessions);
    expect(readOf(sessionsOf(rising)).changes).toBe(false);
    const thin = sessionsOf([1, 1, 2, 2, 2, 3, 3, 3, 4, 4], 1, 6);
    const trend = readOf(thin);
    expect(trend.asRecorded).toMatchObject({ direction: "up", evidence: "clear" });
    expect(trend.changes).toBe(true);
    expect(trend.supposed.find((s) => s.supposition === "on-then-off")?.reading).not.toMatchObject({
      direction: "up",
      evidence: "clear",
    });
  });
});

describe("patterns", () => {
  it("do not make a best hour of two lucky sessions", () => {
    const usual = sessionsOf(Array.from({ length: 30 }, (_, at) => 5 + (at % 2)));
    const lucky = sessionsOf([10, 10]).map((s, at) => ({
      ...s,
      sessionId: `l${at}`,
      minuteOfDay: 800,
    }));
    const { hour } = analyseStudent([...usual, ...lucky]).patterns;
    if (hour.kind === "not-enough") throw new Error(hour.reason);
    const best = hour.kinds.find((kind) => kind.key === 13);
    expect(best).toMatchObject({ rate: 1, sessions: 2, evidence: "cannot-tell" });
    expect(best?.shrunkRate).toBeLessThan(1);
    expect(hour.kinds.map((kind) => kind.key)).toEqual([9, 11, 13]);
  });

  it("find an hour that differs session after session", () => {
    const days = sessionsOf(Array.from({ length: 40 }, (_, at) => (at % 2 === 0 ? 8 : 4)));
    const { hour } = analyseStudent(days).patterns;
    if (hour.kind === "not-enough") throw new Error(hour.reason);
    expect(hour.kinds.map((kind) => kind.evidence)).toEqual(["clear", "clear"]);
    for (const kind of hour.kinds) {
      expect(Math.abs(kind.shrunkRate - hour.overall)).toBeLessThan(
        Math.abs(kind.rate - hour.overall),
      );
    }
  });

  it("withhold a comparison of one kind", () => {
    const { subject, hour } = analyseStudent(
      sessionsOf([5, 6, 7, 5, 6]).map((s) => ({ ...s, minuteOfDay: 600 })),
    ).patterns;
    expect(subject).toEqual({ kind: "not-enough", reason: "few-kinds", have: 0, need: 2 });
    expect(hour).toEqual({ kind: "not-enough", reason: "few-kinds", have: 1, need: 2 });
  });
});

describe("a group", () => {
  it("keeps the roster's order and adds marks session by session", () => {
    const found = analyseGroup([
      { studentId: "b", sessions: sessionsOf([9, 8, 9, 8, 9]) },
      { studentId: "a", sessions: sessionsOf([1, 2, 1, 2, 1]) },
    ]);
    expect(found.students.map((student) => student.studentId)).toEqual(["b", "a"]);
    expect(found.pooled.sessions.map(({ counts }) => counts)).toEqual(
      Array.from({ length: 5 }, () => ({ on: 10, off: 10, missing: 0 })),
    );
  });
});

describe("impossible input", () => {
  it("is refused with the reason", () => {
    const [session] = sessionsOf([5]);
    if (session === undefined) throw new Error("one session expected");
    expect(() => analyseStudent([{ ...session, on: -1 }])).toThrow(/whole number of marks/);
    expect(() => analyseStudent([{ ...session, off: 0.5 }])).toThrow(/whole number of marks/);
    expect(() => analyseStudent([{ ...session, day: "2024-02-30" }])).toThrow(
      /one in the calendar/,
    );
    expect(() => analyseStudent([{ ...session, day: "2 Sept" }])).toThrow(/YYYY-MM-DD/);
  });

  it("is too little for a logistic line", () => {
    expect(logisticTrend([{ time: 0, on: 1, off: 1 }])).toEqual({
      kind: "not-enough",
      reason: "few-sessions",
      have: 1,
      need: 3,
    });
  });
});
