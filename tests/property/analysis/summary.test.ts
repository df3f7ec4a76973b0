import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addCounts } from "../../../shared/analysis/rate.ts";
import { analyseGroup, analyseStudent } from "../../../shared/analysis/summary.ts";
import { dayNumber, dayText } from "../../../shared/calendar/calendar.ts";
import { anySessions, deepFreeze, numbersIn } from "./any-sessions.ts";

describe("reading a student", () => {
  it("holds only finite numbers, and changes nothing it was given", () => {
    fc.assert(
      fc.property(anySessions(), (sessions) => {
        const found = analyseStudent(deepFreeze(sessions));
        expect(numbersIn(found).every(Number.isFinite)).toBe(true);
        expect(JSON.parse(JSON.stringify(found))).toEqual(found);
      }),
      { numRuns: 300 },
    );
  });

  it("gives the same for sessions in any order", () => {
    fc.assert(
      fc.property(
        anySessions(25).chain((list) =>
          fc.tuple(
            fc.constant(list),
            fc.shuffledSubarray(list, { minLength: list.length, maxLength: list.length }),
          ),
        ),
        ([sessions, shuffled]) => {
          expect(analyseStudent(shuffled)).toEqual(analyseStudent(sessions));
        },
      ),
    );
  });

  it("loses no mark between sessions and weeks", () => {
    fc.assert(
      fc.property(anySessions(), (sessions) => {
        const found = analyseStudent(sessions);
        expect(addCounts(found.weeks.map((week) => week.counts))).toEqual(found.counts);
        expect(found.weeks.flatMap((week) => week.sessionIds).length).toBe(found.sessions.length);
      }),
    );
  });

  it("does not depend on where in the calendar whole weeks begin", () => {
    fc.assert(
      fc.property(anySessions(25), fc.integer({ min: -200, max: 200 }), (sessions, weeks) => {
        const moved = sessions.map((session) => ({
          ...session,
          day: dayText(dayNumber(session.day) + 7 * weeks),
          startedAt: session.startedAt + 7 * 86_400_000 * weeks,
        }));
        const before = analyseStudent(sessions);
        const after = analyseStudent(moved);
        expect(after.patterns).toEqual(before.patterns);
        expect(after.logistic).toEqual(before.logistic);
        if (before.trend.kind === "enough" && after.trend.kind === "enough") {
          expect(after.trend.slopePointsPerWeek).toBe(before.trend.slopePointsPerWeek);
          expect(after.trend.p).toBe(before.trend.p);
        } else expect(after.trend).toEqual(before.trend);
      }),
    );
  });

  it("turns a rise into a fall when on and off change places", () => {
    fc.assert(
      fc.property(anySessions(40), (sessions) => {
        const swapped = sessions.map((s) => ({ ...s, on: s.off, off: s.on }));
        const before = analyseStudent(sessions);
        const after = analyseStudent(swapped);
        if (before.weekChange.kind === "enough" && after.weekChange.kind === "enough") {
          expect(after.weekChange.difference).toBeCloseTo(-before.weekChange.difference, 12);
          expect(after.weekChange.evidence).toBe(before.weekChange.evidence);
        }
        if (before.logistic.kind === "enough" && after.logistic.kind === "enough") {
          expect(after.logistic.slope).toBeCloseTo(-before.logistic.slope, 6);
        }
      }),
    );
  });
});

describe("reading a group", () => {
  it("adds up the students and stays finite", () => {
    fc.assert(
      fc.property(fc.array(anySessions(15), { maxLength: 6 }), (lists) => {
        const students = lists.map((sessions, at) => ({ studentId: `st${at}`, sessions }));
        const found = analyseGroup(deepFreeze(students));
        expect(found.students.map((student) => student.studentId)).toEqual(
          students.map((student) => student.studentId),
        );
        expect(addCounts(found.students.map((student) => student.counts))).toEqual(
          found.pooled.counts,
        );
        expect(numbersIn(found).every(Number.isFinite)).toBe(true);
      }),
    );
  });
});
