import { describe, expect, it } from "vitest";
import { agreementSummary } from "../../../../../shared/agreement/agreement-summary.ts";
import type { Session } from "../../../../../shared/api/sessions.ts";
import { firstPlan } from "../../../../../shared/plan/plan.ts";
import type { Student } from "../../../../../shared/roster/roster.ts";
import type { SessionEvent, SessionEventBody } from "../../../../../shared/session/event.ts";
import { observedAt } from "../../../../../shared/session/observation-rotation.ts";
import { replay } from "../../../../../shared/session/reduce.ts";
import {
  boxKey,
  emptyDraft,
  seenEmptied,
  seenFor,
  seenTyped,
  unsavedBoxes,
} from "../../../../../src/screens/observe/observed-draft.ts";
import { observerPairs } from "../../../../../src/screens/observe/observer-pairs.ts";
import { observedStudents, otherTurns, turnAt } from "../../../../../src/screens/observe/turns.ts";

const log = (...bodies: SessionEventBody[]): SessionEvent[] =>
  bodies.map((body, index) => ({
    stamp: { seq: index + 1, atMs: index * 1_000, wallMs: 0, offsetMinutes: 0 },
    body,
  }));

const student = (id: string): Student => ({
  id,
  groupId: "g",
  name: id.toUpperCase(),
  picture: null,
  target: "",
  holdGoal: null,
  hasMoved: false,
  archived: false,
});

const session: Session = {
  id: "s",
  groupId: "g",
  groupName: "Group",
  kind: "baseline",
  planName: "Plan",
  plan: { ...firstPlan, cueing: "teacher" },
  seed: "turns",
  startedMs: 0,
  offsetMinutes: 0,
  day: "2026-03-02",
};

const cue = (number: number): SessionEventBody[] => [
  { kind: "announced", cue: number },
  { kind: "delivered", cue: number, by: "sight", latenessMs: 0, problem: null },
];
const saw = (
  studentId: string,
  at: number,
  value: "on" | "off" | "unseen",
  observer: 1 | 2,
): SessionEventBody => ({ kind: "observed", studentId, cue: at, value, observer });

function live(ids: readonly string[], ...bodies: SessionEventBody[]) {
  return { session, students: ids.map(student), state: replay(log({ kind: "begun" }, ...bodies)) };
}

describe("whose turn it is to be looked at", () => {
  it("goes round those who are not set aside, as the printed sheet has it", () => {
    const watched = live(["a", "b", "c", "d"], { kind: "set-aside", studentId: "b" });
    expect(observedStudents(watched).map(({ id }) => id)).toEqual(["a", "c", "d"]);
    for (let at = 1; at <= 9; at++) {
      expect(turnAt(watched, at)?.id).toBe(observedAt(at, ["a", "c", "d"], session.seed));
    }
  });

  it("is never more than six, and nobody when all are set aside", () => {
    expect(observedStudents(live([..."abcdefgh"]))).toHaveLength(6);
    expect(turnAt(live(["a"], { kind: "set-aside", studentId: "a" }), 1)).toBeNull();
  });

  it("stays as it was when students change seats or names, or others are added afterwards", () => {
    const before = live(["a", "b", "c"]);
    const moved = live(["c", "a", "b"]);
    const renamed = moved.students.map((each) => ({ ...each, name: `New ${each.name}` }));
    // An id made after the session's own "s": added later, so never watched.
    const later = { ...moved, students: [student("z"), ...renamed] };
    for (let at = 1; at <= 9; at++) expect(turnAt(later, at)?.id).toBe(turnAt(before, at)?.id);
    expect(observedStudents(later).map(({ id }) => id)).toEqual(["c", "a", "b"]);
  });

  it("is told apart from a sheet that has somebody else at a look", () => {
    const [first = "", second = ""] = [1, 2].map((at) => observedAt(at, ["a", "b"], session.seed));
    const watched = live(
      ["a", "b"],
      ...cue(1),
      ...cue(2),
      saw(first, 1, "on", 1),
      saw(first, 1, "on", 2),
      saw(first, 2, "off", 2),
    );
    expect(otherTurns(watched, 2)).toEqual([{ cue: 2, name: second.toUpperCase() }]);
    expect(otherTurns(watched, 1)).toEqual([]);
  });

  it("stays with whom the first observer recorded, whatever changed since", () => {
    const other = ["a", "b", "c"].find((id) => id !== observedAt(1, ["a", "b", "c"], session.seed));
    if (other === undefined) throw new Error("three students have two who are not in turn");
    const watched = live(["a", "b", "c"], ...cue(1), saw(other, 1, "on", 1));
    expect(turnAt(watched, 1)?.id).toBe(other);
  });
});

describe("two observers' records", () => {
  it("are compared where both said something of the same student and cue, newest word first", () => {
    const { state } = live(
      ["a", "b"],
      ...cue(1),
      ...cue(2),
      ...cue(3),
      saw("a", 1, "on", 1),
      saw("a", 1, "off", 2),
      saw("a", 1, "on", 2),
      saw("b", 2, "unseen", 1),
      saw("b", 2, "on", 2),
      saw("a", 3, "on", 1),
      saw("b", 3, "on", 2),
    );
    expect(observerPairs(state)).toEqual([
      { first: "on", second: "on" },
      { first: "unseen", second: "on" },
    ]);
    const { table } = agreementSummary(observerPairs(state));
    expect(table).toMatchObject({ bothOn: 1, compared: 1, leftOut: { firstBlank: 1 } });
  });

  it("take nothing from what students record themselves", () => {
    const { state } = live(
      ["a"],
      ...cue(1),
      { kind: "mark", studentId: "a", cue: 1, value: "on", way: "screen", late: false },
      saw("a", 1, "off", 2),
    );
    expect(observerPairs(state)).toEqual([]);
  });
});

describe("an observation sheet while it is typed", () => {
  it.each([
    ["+", "on"],
    ["y", "on"],
    ["-", "off"],
    ["n", "off"],
    [".", "unseen"],
    ["x", null],
    [" ", null],
  ])("reads %s as %s", (key, value) => {
    expect(seenFor(key)).toBe(value);
  });

  it("keeps a key that is no mark in sight until the box is corrected, and saves only what differs", () => {
    const box = boxKey("a", 4);
    const bad = seenTyped(emptyDraft, box, "x");
    expect(bad.bad.get(box)).toBe("x");
    expect(unsavedBoxes(bad, new Map())).toEqual([]);
    const good = seenTyped(bad, box, "-");
    expect(good.bad.size).toBe(0);
    expect(unsavedBoxes(good, new Map())).toEqual([{ studentId: "a", cue: 4, value: "off" }]);
    expect(unsavedBoxes(good, new Map([[box, "off"]]))).toEqual([]);
  });

  it("empties a box that was not saved, and turns a saved one into could not see", () => {
    const box = boxKey("a", 4);
    const typed = seenTyped(emptyDraft, box, "+");
    expect(unsavedBoxes(seenEmptied(typed, box, false), new Map())).toEqual([]);
    expect(unsavedBoxes(seenEmptied(typed, box, true), new Map([[box, "on"]]))).toEqual([
      { studentId: "a", cue: 4, value: "unseen" },
    ]);
  });
});
