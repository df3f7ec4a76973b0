import { describe, expect, it } from "vitest";
import { readSessionRow, type SessionField } from "../../../../shared/transfer/session-row.ts";

const limits = { source: null, mostMarks: 200, beforeMs: Date.UTC(2027, 0, 1) };
const whole: Record<SessionField, string> = {
  student: "Ana",
  startedAt: "2026-03-02T09:15:00+01:00",
  phase: "fading 2",
  source: "Self",
  on: "8",
  off: "2",
  missing: "0",
  subject: "Maths",
  assigned: "10",
  completed: "8",
  correct: "",
};
const read = (change: Partial<Record<SessionField, string>>, more = {}) =>
  readSessionRow((field) => ({ ...whole, ...change })[field], { ...limits, ...more });

describe("a row of a counted session", () => {
  it("is read with its local day, its phase and its work", () => {
    expect(read({})).toMatchObject({
      student: "Ana",
      moment: { day: "2026-03-02", minuteOfDay: 555, offsetMinutes: 60 },
      phase: { kind: "fading", label: "2" },
      source: "self",
      on: 8,
      off: 2,
      missing: 0,
      work: { assigned: 10, completed: 8, correct: null },
    });
  });

  it("says all that is wrong at once, as data", () => {
    const change = {
      student: "",
      startedAt: "2 March",
      phase: "party",
      source: "me",
      on: "many",
      missing: "201",
      subject: "x".repeat(200),
      correct: "9",
    };
    const problems = read(change);
    if (!Array.isArray(problems)) throw new Error("It was read");
    expect(problems.map((each) => ("field" in each ? each.field : each.kind))).toEqual([
      "student",
      "startedAt",
      "phase",
      "source",
      "on",
      "missing",
      "subject-long",
      "correct-over",
    ]);
  });

  it("takes the source that is chosen where no column has one, and no time that is not yet", () => {
    expect(read({ source: "" })).toEqual([{ kind: "field", field: "source", found: "" }]);
    expect(read({ source: "" }, { source: "observer" })).toMatchObject({ source: "observer" });
    const beforeMs = Date.UTC(2026, 2, 2, 8, 15);
    expect(read({}, { beforeMs })).toEqual([{ kind: "time-unlikely", found: whole.startedAt }]);
    expect(read({}, { beforeMs: beforeMs + 1 })).toMatchObject({ student: "Ana" });
  });
});
