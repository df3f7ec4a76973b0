import { describe, expect, it } from "vitest";
import { noRules } from "../../../../shared/plan/earning.ts";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import { pricesFor } from "../../../../shared/points/planner.ts";
import { recordersOf } from "../../../../shared/points/recorders.ts";
import type {
  CheckPair,
  CountedSession,
  WorkDone,
} from "../../../../shared/record/group-counts.ts";
import type { Student } from "../../../../shared/roster/roster.ts";

const names = ["pine", "otter", "wren"];
const students = names.map((id) => ({ id }) as Student);
const session = (at: number, kind: CountedSession["kind"] = "seatwork"): CountedSession => ({
  id: `session ${at}`,
  kind,
  startedMs: at,
  offsetMinutes: 0,
  day: `2026-03-${String(at + 1).padStart(2, "0")}`,
  meanSeconds: 120,
  subject: "",
  cuesDelivered: 0,
  note: "",
});
const done = (studentId: string, at: number, completed: number): WorkDone => ({
  studentId,
  sessionId: `session ${at}`,
  assigned: 20,
  completed,
  correct: null,
});

describe("how a group records, for the planner", () => {
  const sessions = Array.from({ length: 12 }, (_, at) => session(at));
  const work = sessions.flatMap((_, at) => [
    // The two oldest of twelve are no longer looked at.
    done("pine", at, at < 2 ? 100 : 8),
    ...(at < 3 ? [done("otter", at, 4 + at)] : []),
    ...(at < 2 ? [done("wren", at, 19)] : []),
  ]);
  const counts = { sessions, students, counts: [], work, checks: [] };

  it("knows the items of a session, with the lower quartile for who has too few", () => {
    const items = recordersOf(counts, 0).students.map(({ recorder }) => recorder.items);
    expect(items).toEqual([8, 5, 5]);
    const none = recordersOf({ ...counts, work: [] }, 0).students;
    expect(none.map(({ recorder }) => recorder.items)).toEqual([0, 0, 0]);
  });

  it("looks at seatwork alone", () => {
    const probes = sessions.map((each) => ({ ...each, kind: "probe" as const }));
    const items = recordersOf({ ...counts, sessions: probes }, 0).students;
    expect(items.map(({ recorder }) => recorder.items)).toEqual([0, 0, 0]);
  });

  it("prices a plan that pays by work from what the weakest completes", () => {
    const { students: recorded } = recordersOf(counts, 0);
    const prices = pricesFor({
      plan: firstPlan,
      rules: { ...noRules, item: 2, workGoal: 3, workItems: 8 },
      students: recorded.map(({ recorder }) => recorder),
      sessions: 1,
      exchanges: 1,
      givenADay: 0,
    });
    expect(prices.students.map(({ day }) => day.mean)).toEqual([19, 10, 10]);
    expect(prices.bands).toMatchObject({ low: 10, promiseKept: true });
  });

  it("knows how often each student's own record matches, with the lower quartile for who has too few", () => {
    const check = (studentId: string, at: number, matches: boolean): CheckPair => ({
      studentId,
      sessionId: `session ${at}`,
      day: "2026-03-02",
      cue: 1,
      student: "on",
      seen: matches ? "on" : "off",
    });
    const checks = [
      // Two checks in each of twelve sessions; the two oldest sessions are no longer looked at.
      ...sessions.flatMap((_, at) =>
        [0, 1].map((each) => check("pine", at, at >= 2 && each === 0)),
      ),
      ...sessions.map((_, at) => check("otter", at, true)),
      ...[2, 3].map((at) => check("wren", at, true)),
      // Nothing seen, or nothing recorded, is nothing compared.
      { ...check("otter", 4, false), seen: "unseen" as const },
      { ...check("otter", 5, false), student: "none" as const },
    ];
    const recorded = recordersOf({ ...counts, checks }, 0.2).students;
    expect(recorded.map(({ recorder }) => recorder.matching)).toEqual([0.5, 1, 0.5]);
    const first = recordersOf(counts, 0.2).students;
    expect(first.map(({ recorder }) => recorder.matching)).toEqual([0.85, 0.85, 0.85]);
  });
});
