import { describe, expect, it } from "vitest";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import { matchedMarks } from "../../../../shared/points/matched-mark.ts";
import { awayBoxes, cardChanges, cardOf } from "../../../../shared/record/boxes.ts";
import { correctionsOf } from "../../../../shared/record/corrections.ts";
import { selfCounts } from "../../../../shared/record/counts.ts";
import { presenceOf } from "../../../../shared/record/presence.ts";
import { standingNow } from "../../../../shared/record/standing-now.ts";
import { tallyOf } from "../../../../shared/record/tally.ts";
import { ownSchedule } from "../../../../shared/schedule/own-schedule.ts";
import { decide, type SessionCommand } from "../../../../shared/session/decide.ts";
import type { SessionEventBody, UndeliveredReason } from "../../../../shared/session/event.ts";
import { heldSession } from "../../../../shared/session/held-session.ts";
import { outlineOf } from "../../../../shared/session/outline.ts";
import { replay } from "../../../../shared/session/reduce.ts";
import { cuesOf, isAsked, type SessionState } from "../../../../shared/session/state.ts";
import { ada, at, ben, cleo, type Entry, logOf, mark } from "./events.ts";

// What own cues are to come to is by hand from the design of seats, section 3; no other source.

const begun: SessionEventBody = { kind: "begun", cueing: "own" };
const shown = (studentId: string, cue: number): SessionEventBody => ({
  kind: "delivered",
  studentId,
  cue,
  by: "sight",
  latenessMs: 0,
  problem: null,
});
const unshown = (
  studentId: string,
  cue: number,
  reason: UndeliveredReason = "seat-asleep",
): SessionEventBody => ({ kind: "undelivered", studentId, cue, reason });
const stateOf = (...entries: readonly Entry[]): SessionState => replay(logOf(begun, ...entries));

const now = (sessionMs: number) => ({ sessionMs, sinceEndMs: 0 });
const seatMark = (studentId: string, cue: number): SessionCommand => ({
  kind: "mark",
  studentId,
  cue,
  value: "on",
  way: "seat",
});

describe("a student's own cue", () => {
  it("asks its owner alone, and takes nobody else's mark", () => {
    const state = stateOf(shown(ada, 1));
    expect(isAsked(state, ada, 1)).toBe(true);
    expect(isAsked(state, ben, 1)).toBe(false);
    expect(decide(state, seatMark(ada, 1), now(2_000)).ok).toBe(true);
    expect(decide(state, seatMark(ben, 1), now(2_000))).toEqual({
      ok: false,
      refusal: "cue-unknown",
    });
  });

  it("stays open until the same student's next one, whoever is asked in between", () => {
    const state = stateOf(at(1_000, shown(ada, 1)), at(9_000, shown(ben, 1)), shown(ben, 2));
    expect(decide(state, seatMark(ada, 1), now(12_000))).toMatchObject({
      events: [{ studentId: ada, cue: 1, late: false }],
    });
    const after = stateOf(at(1_000, shown(ada, 1)), at(9_000, shown(ada, 2)));
    expect(decide(after, seatMark(ada, 1), now(12_000))).toMatchObject({
      events: [{ late: true }],
    });
    const onScreen = { ...seatMark(ada, 1), way: "screen" } as SessionCommand;
    expect(decide(after, onScreen, now(12_000))).toMatchObject({ refusal: "cue-not-open" });
  });

  it("that a device did not show is no missing mark; an answer says that it was shown", () => {
    const silent = stateOf(shown(ada, 1), unshown(ada, 2), mark(ada, 1, "on"));
    expect(selfCounts(silent, ada)).toEqual({ on: 1, off: 0, missing: 0 });
    expect(decide(silent, seatMark(ada, 2), now(5_000))).toMatchObject({
      events: [{ cue: 2, late: true }],
    });
    const answered = stateOf(
      shown(ada, 1),
      unshown(ada, 2),
      mark(ada, 1, "on"),
      mark(ada, 2, "off"),
    );
    expect(selfCounts(answered, ada)).toEqual({ on: 1, off: 1, missing: 0 });
    expect(cardOf(answered, ada, 5)).toEqual({ kind: "boxes", boxes: ["on", "off"] });
    // One that was taken back or left out by the app was on no device.
    for (const reason of ["skipped", "app-closed", "session-ended", "asleep"] as const) {
      const state = stateOf(unshown(ada, 1, reason));
      expect(decide(state, seatMark(ada, 1), now(2_000))).toMatchObject({ ok: false });
    }
  });

  it("keeps its first verdict, and there is none of the class's beside it", () => {
    const forClass = {
      kind: "delivered",
      cue: 1,
      by: "sound",
      latenessMs: 0,
      problem: null,
    } as const;
    const state = stateOf(unshown(ada, 1), shown(ada, 1), forClass);
    expect(cuesOf(state, ada).get(1)?.standing).toBe("undelivered");
    expect(state.cues.size).toBe(0);
    expect(state.openCue).toBeNull();
    // Nor the other way round: a class that is cued together has nobody's own.
    expect(replay(logOf({ kind: "begun" }, shown(ada, 1))).ownCues.size).toBe(0);
  });
});

describe("what is read of a session of own cues", () => {
  const state = stateOf(
    { kind: "set-aside", studentId: cleo },
    unshown(cleo, 1, "seat-absent"),
    { kind: "back", studentId: cleo },
    shown(ada, 1),
    mark(ada, 1, "on"),
    shown(ben, 1),
    shown(ada, 2),
    { kind: "spot-check", studentId: ada, cue: 1, value: "on" },
    shown(cleo, 2),
    mark(cleo, 2, "off"),
    shown(ben, 2),
    mark(ben, 2, "on"),
  );

  it("counts each student's own cues alone", () => {
    expect(selfCounts(state, ada)).toEqual({ on: 1, off: 0, missing: 1 });
    expect(selfCounts(state, ben)).toEqual({ on: 1, off: 0, missing: 1 });
    expect(selfCounts(state, cleo)).toEqual({ on: 0, off: 1, missing: 0 });
    expect(tallyOf(state).self.get(ben)).toEqual({ on: 1, off: 0, missing: 1 });
    expect(tallyOf(state)).toMatchObject({ cuesDelivered: 5, unsaid: null });
    expect(outlineOf(state).cuesDelivered).toBe(5);
    expect(matchedMarks(state, ada)).toBe(1);
  });

  it("puts box by box on each card what its student was asked", () => {
    expect(cardOf(state, ben, 4)).toEqual({ kind: "boxes", boxes: ["none", "on"] });
    expect(cardOf(state, cleo, 4)).toEqual({ kind: "boxes", boxes: ["off"] });
    expect(awayBoxes(state, cleo, 4)).toEqual([]);
    const card = { kind: "boxes", boxes: ["off", "on"] } as const;
    expect(cardChanges(state, ben, card, 4, "screen")).toEqual([
      { kind: "mark", studentId: ben, cue: 1, value: "off", way: "screen", late: true },
    ]);
    expect(
      correctionsOf(logOf(begun, shown(ada, 1), mark(ada, 1, "on"), mark(ada, 1, "off")), ada, 4),
    ).toMatchObject([{ was: { box: 1, value: "on" }, is: { box: 1, value: "off" } }]);
  });

  it("says who came late, and who has answered the newest of theirs", () => {
    expect(presenceOf(state, cleo)).toBe("late");
    expect(presenceOf(state, ada)).toBe("here");
    expect(standingNow(state, ada, true)).toBe("waiting");
    expect(standingNow(state, ben, true)).toBe("answered");
  });

  it("settles at the end and at a restart what nobody has reported", () => {
    const called = stateOf({ kind: "announced", studentId: ada, cue: 1 });
    expect(decide(called, { kind: "end", reason: "teacher" }, now(2_000))).toMatchObject({
      events: [unshown(ada, 1, "session-ended"), { kind: "ended" }],
    });
    expect(decide(called, { kind: "recover" }, now(2_000))).toMatchObject({
      events: [unshown(ada, 1, "app-closed"), { kind: "paused" }],
    });
  });
});

it("held by printed keys, equals everybody's key, each by a touch", () => {
  const plan = { ...firstPlan, cueing: "own" } as const;
  const cues = { kind: "seed", seed: "keys", studentId: null, missed: [] } as const;
  const log = heldSession(plan, cues, [cleo], "", [ada, ben]);
  const state = replay(
    log.map(({ atMs, body }, index) => ({
      stamp: { seq: index + 1, atMs, wallMs: atMs, offsetMinutes: 0 },
      body,
    })),
  );
  for (const { studentId, cue, seconds } of ownSchedule(plan, "keys", [ada, ben])) {
    expect(cuesOf(state, studentId).get(cue)).toMatchObject({
      standing: "delivered",
      atMs: seconds * 1_000,
      by: "touch",
    });
  }
  expect([...state.byTouch]).toEqual([ada, ben]);
  expect(selfCounts(state, cleo)).toBeNull();
});
