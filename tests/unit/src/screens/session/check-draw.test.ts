import { describe, expect, it } from "vitest";
import { firstPlan } from "../../../../../shared/plan/plan.ts";
import { checkedClosely, groupStanding } from "../../../../../shared/reading/check-standing.ts";
import { sessionSchedule } from "../../../../../shared/schedule/session-schedule.ts";
import type { CueRecord } from "../../../../../shared/session/state.ts";
import { drawChecks } from "../../../../../src/screens/session/check-draw.ts";
import { session } from "../../../shared/reading/builders.ts";

// The rule is the project's own; how checks fade is tested beside shared/agreement.

const students = ["s1", "s2", "s3", "s4"];
const plan = { ...firstPlan, meanSeconds: 60 };
const running = { plan, seed: "birch", kind: "seatwork", day: "2026-09-18" } as const;
const cueCount = sessionSchedule(plan, running.seed).cues.length;

const delivered = (aside: readonly string[] = []): CueRecord => ({
  standing: "delivered",
  seq: 1,
  atMs: 0,
  by: "sound",
  latenessMs: 0,
  problem: null,
  aside: new Set(aside),
});
const cuesWith = (aside: (cue: number) => readonly string[]) =>
  new Map(Array.from({ length: cueCount }, (_, at) => [at + 1, delivered(aside(at + 1))]));
const everybody = cuesWith(() => []);

const days = ["2026-09-07", "2026-09-08", "2026-09-09", "2026-09-10"];
const sessions = days.map((day, at) => session(`x${at + 1}`, day));
/**
 * So many checks of a student in each session, of which the first so many match, on and off in turn; at the
 * others on was recorded and off seen.
 */
const checksOf = (studentId: string, matching: number, compared: number) =>
  sessions.flatMap(({ id, day }) =>
    Array.from({ length: compared }, (_, at) => ({
      studentId,
      sessionId: id,
      day,
      cue: at + 1,
      student: at < matching && at % 2 === 1 ? ("off" as const) : ("on" as const),
      seen: at < matching && at % 2 === 0 ? ("on" as const) : ("off" as const),
    })),
  );
const nothing = { sessions: [], checks: [] };
const held = { sessions, checks: checksOf("s1", 4, 4) };

describe("whom a spot check asks about", () => {
  it("asks as many as the plan says, at every cue before anything is on record", () => {
    expect(cueCount).toBeGreaterThan(8);
    for (const studentsPerCheck of [1, 2, 4]) {
      const draw = drawChecks(
        { ...running, plan: { ...plan, studentsPerCheck } },
        students,
        everybody,
        nothing,
      );
      expect(draw).toHaveLength(cueCount);
      for (const { studentIds } of draw) expect(studentIds).toHaveLength(studentsPerCheck);
    }
  });

  it("asks about nobody who was set aside when the cue came, nor at a cue that has not come", () => {
    const away = cuesWith((cue) => (cue > 3 ? ["s1", "s2"] : []));
    away.delete(cueCount);
    const draw = drawChecks(running, students, away, nothing);
    expect(draw).toHaveLength(cueCount - 1);
    for (const { cueIndex, studentIds } of draw) {
      if (cueIndex >= 3) expect([...studentIds].sort()).toEqual(["s3", "s4"]);
    }
    expect(draw.slice(0, 3)).toEqual(drawChecks(running, students, everybody, nothing).slice(0, 3));
  });

  it("asks at fewer cues once agreement held, unless the plan or a practice says otherwise", () => {
    expect(groupStanding(held).every).toBe(2);
    const cues = (change: object) =>
      drawChecks({ ...running, ...change }, students, everybody, held).length;
    expect(Math.abs(cues({}) - cueCount / 2)).toBeLessThanOrEqual(1);
    expect(cues({ plan: { ...plan, checkPace: "every" } })).toBe(cueCount);
    expect(Math.abs(cues({ plan: { ...plan, checkPace: "tenth" } }) - cueCount / 10)).toBeLessThan(
      2,
    );
    expect(cues({ kind: "practice" })).toBe(cueCount);
  });

  it("keeps every cue for students whose own checks do not match, while others' become rarer", () => {
    const record = {
      sessions,
      checks: [...checksOf("s1", 10, 10), ...checksOf("s2", 2, 4), ...checksOf("s3", 0, 2)],
    };
    // 8 and 0 of 8 compared are too few to single s3 out; s2 has 16, half of which match.
    expect([...checkedClosely(record)]).toEqual(["s2"]);
    expect(
      groupStanding({ sessions, checks: [...checksOf("s1", 20, 20), ...record.checks] }).every,
    ).toBe(2);
    const draw = drawChecks(
      { ...running, plan: { ...plan, studentsPerCheck: 2 } },
      students,
      everybody,
      { sessions, checks: [...checksOf("s1", 20, 20), ...record.checks] },
    );
    expect(draw).toHaveLength(cueCount);
    for (const { studentIds } of draw) expect(studentIds).toContain("s2");
  });
});
