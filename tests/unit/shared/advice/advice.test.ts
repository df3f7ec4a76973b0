import { describe, expect, it } from "vitest";
import { type AdviceInputs, advise } from "../../../../shared/advice/advice.ts";
import { lastPlace, rungAt } from "../../../../shared/advice/ladder.ts";
import { summariseTable } from "../../../../shared/agreement/agreement-summary.ts";
import { twoByTwoOf } from "../../../../shared/agreement/two-by-two.ts";

// That unchecked, paid self-records grow flattering: Hundert & Bucher (1978) J Appl Behav Anal 11:304
// (abstract read). All counts of sessions and points: common practice, no source.

const session = (on: number, off: number, missing = 0) => ({ on, off, missing });
const good = summariseTable(twoByTwoOf(8, 0, 1, 5));
const low = summariseTable(twoByTwoOf(5, 3, 3, 5));
const flattering = summariseTable(twoByTwoOf(30, 8, 1, 21)); // 85 %, 8 to 1
const few = summariseTable(twoByTwoOf(2, 1, 0, 1));

const usual: AdviceInputs = {
  ladder: { cueSteps: 3 },
  place: 0,
  goal: 0.8,
  sessions: [session(8, 2), session(9, 1), session(8, 2)],
  source: "self",
  agreement: good,
  sessionsSinceCheck: 0,
  pointsPaid: true,
  baseline: { self: 0.4, observer: null },
};
const given = (change: Partial<AdviceInputs>) => advise({ ...usual, ...change });

describe("the ladder", () => {
  it("has dense cues, thinner cues, then three rungs without cues", () => {
    const ladder = { cueSteps: 3 };
    const all = Array.from({ length: lastPlace(ladder) + 1 }, (_, place) => rungAt(ladder, place));
    expect(all).toEqual([
      "dense-cues",
      "thinner-cues",
      "thinner-cues",
      "recording-without-cues",
      "own-praise",
      "probes",
    ]);
  });
  it("refuses places and ladders that are none", () => {
    expect(() => rungAt({ cueSteps: 3 }, 6)).toThrow("places 0 to 5");
    expect(() => rungAt({ cueSteps: 0 }, 0)).toThrow("at least one step");
    expect(() => given({ place: 9 })).toThrow(RangeError);
    expect(() => given({ goal: 80 })).toThrow("between 0 and 1");
  });
});

describe("the match first", () => {
  it("when points are paid and the last three sessions had no check, whatever the rates", () => {
    for (const sessionsSinceCheck of [null, 3, 40])
      expect(given({ sessionsSinceCheck })).toMatchObject({
        decision: "check-match",
        reason: "points-without-checks",
        toPlace: 0,
      });
    expect(given({ sessionsSinceCheck: 2 }).decision).toBe("thin-cues");
  });
  it("even before there are three sessions", () => {
    const early = { sessions: [session(9, 1)], sessionsSinceCheck: null };
    expect(given(early).reason).toBe("points-without-checks");
    expect(given({ ...early, pointsPaid: false }).reason).toBe("few-sessions");
  });
  it("when agreement is low, before a step forward", () => {
    expect(given({ agreement: low }).reason).toBe("agreement-below-80");
  });
  it("never for a record that falls: it flatters nobody", () => {
    const missed = [session(1, 9), session(1, 9), session(1, 9)];
    const doubts = [{ agreement: low }, { agreement: flattering }, { sessionsSinceCheck: null }];
    for (const doubt of doubts) {
      expect(given({ ...doubt, sessions: missed, place: 2 }).decision).toBe("step-back");
      expect(given({ ...doubt, sessions: missed }).decision).toBe("ask-what-changed");
      const slide = [session(10, 0), session(10, 0), session(10, 0), ...usual.sessions];
      expect(given({ ...doubt, goal: 0.8, sessions: slide }).decision).not.toBe("check-match");
    }
    // 78 % for a week, then 29, 27, 25 and 0 %; seven of seven checks match, points are paid.
    const week = Array.from({ length: 5 }, () => session(7, 2));
    const fall = [session(2, 5), session(3, 8), session(2, 6), session(0, 7)];
    const seven = summariseTable(twoByTwoOf(3, 0, 0, 4));
    for (const sessionsSinceCheck of [0, 3, null])
      expect(
        given({ sessions: [...week, ...fall], agreement: seven, sessionsSinceCheck }),
      ).toMatchObject({ decision: "ask-what-changed", reason: "goal-missed-at-first-step" });
  });
  it("never for a record that every check matches", () => {
    const seven = summariseTable(twoByTwoOf(5, 0, 0, 2));
    expect(given({ agreement: seven, sessionsSinceCheck: 5 })).toMatchObject({
      decision: "keep-going",
      reason: "few-matching-checks-to-thin",
    });
  });
  it("when records are fair yet lean to flattery", () => {
    expect(flattering.level).toBe("fair");
    expect(given({ agreement: flattering })).toMatchObject({
      decision: "check-match",
      reason: "records-flatter",
    });
  });
  it("when records match strongly, and wherever they do not they flatter", () => {
    const strong = summariseTable(twoByTwoOf(150, 20, 0, 100));
    expect(strong.level).toBe("strong");
    expect(given({ agreement: strong }).reason).toBe("records-flatter");
  });
  it("when the goal holds and too few checks say that it does", () => {
    expect(given({ agreement: few, pointsPaid: false })).toMatchObject({
      decision: "check-match",
      reason: "few-checks-to-thin",
    });
  });
});

describe("not enough data", () => {
  it("without marks, even when points are paid unchecked", () => {
    const nothing = { sessions: [session(0, 0, 9)], sessionsSinceCheck: null };
    expect(given(nothing)).toMatchObject({ decision: "not-enough-data", reason: "no-sessions" });
    expect(given({ sessions: [] }).reason).toBe("no-sessions");
  });
  it("with fewer than three sessions, those without a cue for the student not counted", () => {
    const sessions = [session(8, 2), session(0, 0, 0), session(9, 1)];
    expect(given({ sessions })).toMatchObject({ reason: "few-sessions", judgedRates: [0.8, 0.9] });
    expect(given({ sessions: [...sessions, session(4, 1, 5)] }).decision).toBe("thin-cues");
  });
  it("when one of the last three sessions has marks at fewer than half its cues, however good those before", () => {
    const good = [session(9, 1), session(9, 1), session(9, 1)];
    for (const newest of [session(0, 2, 8), session(0, 0, 10)]) {
      expect(given({ sessions: [...good, newest, newest, newest] })).toMatchObject({
        decision: "not-enough-data",
        reason: "few-answers",
        judgedRates: [],
      });
      expect(given({ sessions: [...good, newest] }).reason).toBe("few-answers");
      expect(given({ sessions: [newest, ...good] }).decision).toBe("thin-cues");
    }
  });
});

describe("moving along the ladder", () => {
  it.each([
    [0, "thin-cues", 1, "thinner-cues"],
    [1, "thin-cues", 2, "thinner-cues"],
    [2, "end-cues-and-probe", 3, "recording-without-cues"],
    [3, "end-cues-and-probe", 4, "own-praise"],
    [4, "end-cues-and-probe", 5, "probes"],
  ])("held at place %i: %s, to %i", (place, decision, toPlace, toRung) => {
    expect(given({ place })).toMatchObject({ decision, reason: "goal-held", toPlace, toRung });
  });

  it("keeps probing at the end", () => {
    expect(given({ place: 5 })).toMatchObject({
      decision: "keep-going",
      reason: "goal-held-at-last-step",
      toPlace: 5,
    });
  });

  it("steps back when the goal was clearly missed three sessions running", () => {
    const sessions = [session(9, 1), session(7, 3), session(7, 3), session(6, 4)];
    expect(given({ sessions, place: 2 })).toMatchObject({
      decision: "step-back",
      reason: "goal-missed",
      toPlace: 1,
      judgedRates: [0.7, 0.7, 0.6],
    });
    expect(given({ sessions, place: 0 })).toMatchObject({
      decision: "ask-what-changed",
      reason: "goal-missed-at-first-step",
      toPlace: 0,
    });
  });

  it("keeps going in between", () => {
    const mixed = [session(9, 1), session(7, 3), session(8, 2)];
    expect(given({ sessions: mixed })).toMatchObject({
      decision: "keep-going",
      reason: "goal-not-yet-held",
    });
    const near = [session(15, 5), session(15, 5), session(15, 5)];
    expect(given({ sessions: near, place: 1 }).decision).toBe("keep-going");
  });
});

describe("asking a specialist", () => {
  const flat = Array.from({ length: 10 }, () => session(4, 6));
  it("after ten sessions at one step without a rise above baseline", () => {
    expect(given({ sessions: flat }).askSpecialist).toBe(true);
    expect(given({ sessions: flat.slice(1) }).askSpecialist).toBe(false);
    const below = (self: number | null, observer: number | null) =>
      given({ sessions: flat, baseline: { self, observer } }).askSpecialist;
    expect(below(0.3, null)).toBe(false);
    expect(below(null, null)).toBe(false);
    // What somebody else saw is no measure of what students record themselves.
    expect(below(null, 0.4)).toBe(false);
    expect(below(0.3, 0.9)).toBe(false);
  });
});

it("carries its inputs along", () => {
  expect(given({}).inputs).toEqual(usual);
});
