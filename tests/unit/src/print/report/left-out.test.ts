import { describe, expect, it } from "vitest";
import type { CountColumns, GroupCounts } from "../../../../../shared/record/group-counts.ts";
import { leftOut } from "../../../../../src/print/report/left-out.ts";

const nobody: CountColumns = { on: [], off: [], missing: [] };

/** A group's counts with as many sessions as the columns are long. */
function counts(self: CountColumns, observer: CountColumns): GroupCounts {
  const sessions = self.on.map((_, index) => ({
    id: `session ${index}`,
    kind: "seatwork" as const,
    startedMs: index,
    offsetMinutes: 0,
    day: "2026-03-02",
    meanSeconds: 120,
    subject: "",
    cuesDelivered: 10,
    note: "",
  }));
  return {
    group: {
      id: "group",
      name: "Group",
      target: "",
      isSample: false,
      archived: false,
      studentCount: 1,
    },
    students: [],
    sessions,
    counts: [{ studentId: "one", self, observer }],
    checks: [],
    leftOut: [],
    freeLooks: [],
    observerPairs: [],
    work: [],
    phases: [],
    daysOff: [],
    today: "2026-03-20",
  };
}

describe("what a report leaves out", () => {
  it("tells sessions without marks, without the student and by an observer alone", () => {
    // In order: recorded; asked and nothing recorded; not there; seen by an observer only; recorded and seen.
    const found = leftOut(
      counts(
        {
          on: [6, 0, null, null, 5],
          off: [2, 0, null, null, 5],
          missing: [2, 10, null, null, 0],
        },
        {
          on: [null, null, null, 7, 4],
          off: [null, null, null, 3, 6],
          missing: [null, null, null, 0, 0],
        },
      ),
      "one",
    );
    expect(found).toEqual({ withoutMarks: 1, notThere: 1, missingMarks: 12, observedOnly: 1 });
  });

  it("takes a student who is not in the counts for one who was never there", () => {
    const found = leftOut(counts({ on: [1, 1], off: [0, 0], missing: [0, 0] }, nobody), "another");
    expect(found).toEqual({ withoutMarks: 0, notThere: 2, missingMarks: 0, observedOnly: 0 });
  });
});
