import { describe, expect, it } from "vitest";
import { firstPlan } from "../../../../../shared/plan/plan.ts";
import type { CheckPair, CountedSession } from "../../../../../shared/record/group-counts.ts";
import type { SessionKind } from "../../../../../shared/session/event.ts";
import {
  awaitsCards,
  dayOffOn,
  drawnChanges,
  owesCheck,
} from "../../../../../src/screens/today/awaits.ts";

const listed = {
  kind: "seatwork",
  status: "ended",
  plan: { ...firstPlan, recording: "paper" },
  cuesDelivered: 9,
  studentsRecorded: 2,
  studentsPresent: 5,
  leftOutBecause: null,
} as const;

describe("cards that wait", () => {
  it("are those of an ended session on paper of which somebody's is missing", () => {
    expect(awaitsCards(listed)).toBe(true);
    expect(awaitsCards({ ...listed, studentsRecorded: 5 })).toBe(false);
    expect(awaitsCards({ ...listed, status: "running" })).toBe(false);
    expect(awaitsCards({ ...listed, cuesDelivered: 0 })).toBe(false);
    expect(awaitsCards({ ...listed, leftOutBecause: "It was a trial" })).toBe(false);
  });

  it("are none at the shared screen, after a practice or an observation", () => {
    expect(awaitsCards({ ...listed, plan: { ...listed.plan, recording: "screen" } })).toBe(false);
    for (const kind of ["practice", "baseline", "probe"] as const) {
      expect(awaitsCards({ ...listed, kind })).toBe(false);
    }
  });
});

describe("a spot check that is owed", () => {
  const session = (id: string, kind: SessionKind = "seatwork"): CountedSession => ({
    id,
    kind,
    startedMs: 0,
    offsetMinutes: 0,
    day: "2026-03-02",
    meanSeconds: 120,
    subject: "",
    cuesDelivered: 9,
    note: "",
  });
  const check = (sessionId: string, seen: CheckPair["seen"]): CheckPair => ({
    studentId: "a",
    sessionId,
    day: "2026-03-02",
    cue: 1,
    student: "on",
    seen,
  });
  const three = [session("1"), session("2"), session("3")];

  it("comes after three sessions without one, not before", () => {
    expect(owesCheck({ sessions: three.slice(1), checks: [] })).toBe(false);
    expect(owesCheck({ sessions: three, checks: [] })).toBe(true);
  });

  it("goes with one look that saw something, and not with one that could not see", () => {
    expect(owesCheck({ sessions: three, checks: [check("2", "off")] })).toBe(false);
    expect(owesCheck({ sessions: three, checks: [check("2", "unseen")] })).toBe(true);
  });

  it("comes again when the look lies further back, and takes observed sessions for none", () => {
    const sessions = [...three, session("b", "probe"), session("4")];
    expect(owesCheck({ sessions, checks: [check("1", "on"), check("b", "on")] })).toBe(true);
  });
});

describe("a day off", () => {
  const spring = { id: "d", firstDay: "2026-03-30", lastDay: "2026-04-06", label: "Spring" };

  it("reaches from its first to its last day, both included", () => {
    expect(dayOffOn([spring], "2026-03-29")).toBeNull();
    expect(dayOffOn([spring], "2026-03-30")).toBe(spring);
    expect(dayOffOn([spring], "2026-04-06")).toBe(spring);
    expect(dayOffOn([spring], "2026-04-07")).toBeNull();
  });
});

describe("a program that was drawn to change", () => {
  const draw = {
    from: "2026-09-14",
    to: "2026-09-16",
    seed: "a",
    days: ["2026-09-14", "2026-09-15"],
    times: 1,
  };
  const own = (
    studentId: string | null,
    startsOn: string,
    kind: "intervention" | "baseline" = "intervention",
  ) => ({ studentId, startsOn, kind, draw });
  const nobody = { whole: false, students: 0 };

  it("is said on its day, of the group or of so many students", () => {
    const phases = [own("a", "2026-09-15"), own("b", "2026-09-15"), own("c", "2026-09-14")];
    expect(drawnChanges(phases, "2026-09-15").begins).toEqual({ whole: false, students: 2 });
    expect(drawnChanges(phases, "2026-09-16")).toEqual({ begins: nobody, ends: nobody });
    expect(drawnChanges([own(null, "2026-09-15")], "2026-09-15").begins.whole).toBe(true);
    const chosen = [{ ...own(null, "2026-09-15"), draw: null }];
    expect(drawnChanges(chosen, "2026-09-15").begins).toEqual(nobody);
  });

  it("tells a beginning from a withdrawal", () => {
    const phases = [own("a", "2026-09-15", "baseline")];
    expect(drawnChanges(phases, "2026-09-15")).toEqual({
      begins: nobody,
      ends: { whole: false, students: 1 },
    });
  });
});
