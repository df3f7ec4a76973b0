import { describe, expect, it } from "vitest";
import { contractOutcome } from "../../../../shared/home/contract.ts";
import { contractDays, rateOfDay } from "../../../../shared/home/contract-days.ts";
import { mayMeasure, selfMatch } from "../../../../shared/home/contract-match.ts";

const student = "0190a000-0000-7000-8000-000000000001";
const other = "0190a000-0000-7000-8000-000000000002";
const sessionId = (n: number) => `0190a000-0000-7000-8000-0000000001${String(n).padStart(2, "0")}`;

/** A session a row: its day, kind, and the student's own marks; null where the student took no part. */
type Row = readonly [
  day: string,
  kind: "seatwork" | "probe",
  marks: readonly [on: number, off: number, missing: number] | null,
];

function countsOf(rows: readonly Row[]) {
  const column = (at: 0 | 1 | 2) => rows.map(([, , marks]) => marks?.[at] ?? null);
  const none = rows.map(() => null);
  return {
    sessions: rows.map(([day, kind], n) => ({
      id: sessionId(n),
      kind,
      day,
      startedMs: n,
      offsetMinutes: 0,
      meanSeconds: 120,
      subject: "",
      cuesDelivered: 10,
      note: "",
    })),
    counts: [
      {
        studentId: student,
        self: { on: column(0), off: column(1), missing: column(2) },
        observer: { on: none, off: none, missing: none },
      },
    ],
    checks: [],
    work: [],
  };
}

const check = (
  session: number,
  cue: number,
  said: "on" | "off" | "none",
  seen: "on" | "off" | "unseen",
  studentId = student,
) => ({ studentId, sessionId: sessionId(session), day: "2026-03-02", cue, student: said, seen });

const self = { kind: "rate", rate: 0.8, measure: "self" } as const;
const adult = { kind: "rate", rate: 0.8, measure: "adult" } as const;
const work = { kind: "work", completed: 0.8, correct: 0.5 } as const;

describe("the days of a contract", () => {
  it("pool the seatwork of a day, and leave out other kinds and sessions without the student", () => {
    const counts = countsOf([
      ["2026-03-02", "seatwork", [4, 1, 0]],
      ["2026-03-02", "seatwork", [3, 2, 5]],
      ["2026-03-02", "probe", [9, 0, 0]],
      ["2026-03-03", "seatwork", null],
      ["2026-03-04", "seatwork", [0, 0, 8]],
    ]);
    expect(contractDays(counts, student, self)).toEqual([
      { day: "2026-03-02", on: 7, off: 3, cues: 15, work: null },
      { day: "2026-03-04", on: 0, off: 0, cues: 8, work: null },
    ]);
    expect(contractDays(counts, student, self, 2).map(({ on }) => on)).toEqual([3, 0]);
    expect(contractDays(counts, other, self)).toEqual([]);
  });

  it("by an adult's eyes count what was seen, not what was said, nor what could not be seen", () => {
    const counts = {
      ...countsOf([["2026-03-02", "seatwork", [9, 0, 0]]]),
      checks: [
        check(0, 1, "on", "off"),
        check(0, 2, "on", "on"),
        check(0, 3, "none", "on"),
        check(0, 4, "on", "unseen"),
        check(0, 5, "on", "on", other),
      ],
    };
    expect(contractDays(counts, student, adult)).toMatchObject([{ on: 2, off: 1, cues: 3 }]);
  });

  it("add up work, and know of correct items only where all of the day were looked at", () => {
    const rows: Row[] = [
      ["2026-03-02", "seatwork", [1, 0, 0]],
      ["2026-03-02", "seatwork", [1, 0, 0]],
      ["2026-03-03", "seatwork", [1, 0, 0]],
    ];
    const done = (n: number, correct: number | null) => ({
      studentId: student,
      sessionId: sessionId(n),
      assigned: 10,
      completed: 8,
      correct,
    });
    const counts = { ...countsOf(rows), work: [done(0, 7), done(1, null), done(2, 6)] };
    const days = contractDays(counts, student, work);
    expect(days.map((day) => day.work)).toEqual([
      { assigned: 20, completed: 16, correct: null },
      { assigned: 10, completed: 8, correct: 6 },
    ]);
    expect(days.map((day) => rateOfDay(work, day))).toEqual([0.8, 0.8]);
  });
});

describe("the rate of a day", () => {
  it.each([
    ["one mark of ten cues", { on: 1, off: 0, cues: 10 }, null],
    ["four marks", { on: 4, off: 0, cues: 4 }, null],
    ["five marks of eleven cues", { on: 5, off: 0, cues: 11 }, null],
    ["five marks of ten cues", { on: 4, off: 1, cues: 10 }, 0.8],
  ])("%s", (_, marks, rate) => {
    const day = { ...marks, work: null };
    expect(rateOfDay(self, day)).toBe(rate);
    expect(contractOutcome(self, day) === "no-data").toBe(rate === null);
  });

  it("is the completed share, also where nobody counted what was correct", () => {
    const day = { on: 0, off: 0, cues: 0 };
    const goal = { kind: "work", completed: 0.5, correct: 0.5 } as const;
    const done = { assigned: 10, completed: 8, correct: null };
    expect(rateOfDay(goal, { ...day, work: done })).toBe(0.8);
    expect(rateOfDay(goal, { ...day, work: { ...done, assigned: 0 } })).toBeNull();
  });
});

describe("self-records as the measure", () => {
  const counts = (matching: number, compared: number) => ({
    ...countsOf([["2026-03-02", "seatwork", [9, 0, 0]]]),
    checks: Array.from({ length: compared }, (_, n) =>
      check(0, n + 1, "on", n < matching ? "on" : "off"),
    ),
  });

  // What Works Clearinghouse, Single-Case Designs 1.0: .80 is the lowest acceptable agreement.
  it.each([
    [8, 10, true],
    [7, 10, false],
    [16, 20, true],
    [0, 9, true],
  ])("%i of %i matching checks", (matching, compared, may) => {
    expect(mayMeasure(self, selfMatch(counts(matching, compared), student))).toBe(may);
  });

  it("what an adult sees and work done need no match", () => {
    const match = selfMatch(counts(0, 20), student);
    expect(mayMeasure(adult, match)).toBe(true);
    expect(mayMeasure(work, match)).toBe(true);
  });
});
