import { describe, expect, it } from "vitest";
import { type AdviceInputs, advise } from "../../../../shared/advice/advice.ts";
import { judge } from "../../../../shared/advice/goal-chance.ts";
import { lastPlace, rungAt } from "../../../../shared/advice/ladder.ts";
import { workFalls, workTrend } from "../../../../shared/advice/work-done.ts";
import { summariseTable } from "../../../../shared/agreement/agreement-summary.ts";
import { twoByTwoOf } from "../../../../shared/agreement/two-by-two.ts";
import { normalCdf } from "../../../../shared/statistics/normal.ts";
import { meanInflation } from "../../../../shared/statistics/planning/mean-inflation.ts";

// That unchecked, paid self-records grow flattering: Hundert & Bucher (1978) J Appl Behav Anal 11:304
// (abstract read). All counts of sessions and points: common practice, no source.

const session = (on: number, off: number, missing = 0) => ({ on, off, missing });
const times = (count: number, on: number, off: number) =>
  Array.from({ length: count }, () => session(on, off));
const good = summariseTable(twoByTwoOf(24, 1, 1, 14));
const low = summariseTable(twoByTwoOf(5, 3, 3, 5));
const flattering = summariseTable(twoByTwoOf(30, 8, 1, 21)); // 85 %, 8 to 1
const few = summariseTable(twoByTwoOf(2, 1, 0, 1));
const alwaysOn = summariseTable(twoByTwoOf(18, 2, 0, 0));

const usual: AdviceInputs = {
  ladder: { cueSteps: 3 },
  place: 0,
  goal: 0.8,
  sessions: times(3, 19, 1),
  daysHere: 3,
  source: "self",
  agreement: good,
  sessionsSinceCheck: 0,
  pointsPaid: true,
  baseline: { self: 0.4, observer: null },
  work: null,
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
    expect(() => rungAt({ cueSteps: 3 }, 6)).toThrow("from 0 to 5; got 6");
    expect(() => rungAt({ cueSteps: 0 }, 0)).toThrow(
      "cueSteps must be a whole number from 1; got 0",
    );
    expect(() => given({ place: 9 })).toThrow(RangeError);
    expect(() => given({ goal: 80 })).toThrow("from 0 to 1; got 80");
  });
});

describe("the match first", () => {
  it("when points are paid, the last three sessions had no check and older ones cannot tell", () => {
    for (const sessionsSinceCheck of [null, 3, 40])
      expect(given({ sessionsSinceCheck, agreement: few })).toMatchObject({
        decision: "check-match",
        reason: "points-without-checks",
        toPlace: 0,
      });
    expect(given({ sessionsSinceCheck: 2 }).decision).toBe("thin-cues");
  });
  it("even before there are three sessions", () => {
    const early = { sessions: [session(9, 1)], sessionsSinceCheck: null, agreement: few };
    expect(given(early).reason).toBe("points-without-checks");
    expect(given({ ...early, pointsPaid: false }).reason).toBe("few-sessions");
  });
  it("when the match is low, before a step forward", () => {
    expect(given({ agreement: low }).reason).toBe("match-low");
  });
  it("never for a record that falls: it flatters nobody", () => {
    const missed = times(3, 1, 9);
    const doubts = [{ agreement: low }, { agreement: flattering }, { sessionsSinceCheck: null }];
    for (const doubt of doubts) {
      expect(given({ ...doubt, sessions: missed, place: 2 }).decision).toBe("step-back");
      expect(given({ ...doubt, sessions: missed }).decision).toBe("ask-what-changed");
      const slide = [...times(3, 10, 0), ...times(3, 8, 2)];
      expect(given({ ...doubt, sessions: slide }).decision).not.toBe("check-match");
    }
    // 78 % for a week, then 29, 27, 25 and 0 %; seven of seven checks match, points are paid.
    const week = times(5, 7, 2);
    const fall = [session(2, 5), session(3, 8), session(2, 6), session(0, 7)];
    const seven = summariseTable(twoByTwoOf(3, 0, 0, 4));
    for (const sessionsSinceCheck of [0, 3, null])
      expect(
        given({ sessions: [...week, ...fall], agreement: seven, sessionsSinceCheck }),
      ).toMatchObject({ decision: "ask-what-changed", reason: "below-goal-at-first-step" });
  });
  it("never for a record that falls and yet holds the goal", () => {
    const fallen = { sessions: [...times(10, 20, 0), ...times(3, 18, 2)], goal: 0.7 };
    const none = summariseTable(twoByTwoOf(0, 0, 0, 0));
    const fourOfFive = summariseTable(twoByTwoOf(3, 1, 0, 1));
    for (const agreement of [none, fourOfFive])
      for (const pointsPaid of [true, false])
        expect(given({ ...fallen, agreement, pointsPaid })).toMatchObject({
          decision: "keep-going",
          reason: "goal-held-while-falling",
          toPlace: 0,
        });
    // Where the checks can tell, the fall alone keeps no step back.
    expect(given({ ...fallen, agreement: good }).decision).toBe("thin-cues");
    // Half a session's cue less is no fall.
    const level = { ...fallen, sessions: [...times(10, 20, 0), ...times(3, 19, 1)] };
    expect(given({ ...level, agreement: none }).decision).toBe("check-match");
  });
  it("never for a record that matches", () => {
    const seven = summariseTable(twoByTwoOf(5, 0, 0, 2));
    expect(given({ agreement: seven, sessionsSinceCheck: 5 })).toMatchObject({
      decision: "keep-going",
      reason: "few-matching-checks",
    });
    expect(given({ agreement: good, sessionsSinceCheck: 5 }).decision).toBe("thin-cues");
  });
  it("when records match strongly, and wherever they do not they flatter", () => {
    const strong = summariseTable(twoByTwoOf(150, 20, 0, 100));
    expect(strong.level).toBe("strong");
    expect(given({ agreement: strong }).reason).toBe("records-flatter");
    expect(flattering.level).toBe("fair");
    expect(given({ agreement: flattering })).toMatchObject({
      decision: "check-match",
      reason: "records-flatter",
    });
  });
  it("when the goal holds and the checks cannot tell", () => {
    for (const agreement of [few, alwaysOn])
      expect(given({ agreement, pointsPaid: false, goal: 0.85 })).toMatchObject({
        decision: "check-match",
        reason: "match-unknown",
      });
  });
  it("not when the checks say by themselves that the goal holds, whatever was recorded", () => {
    const seenOn = summariseTable(twoByTwoOf(39, 0, 1, 0));
    expect(seenOn.reading.match).toBe("cannot-tell");
    expect(given({ agreement: seenOn })).toMatchObject({
      decision: "thin-cues",
      reason: "goal-held-as-seen",
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
    const sessions = [session(19, 1), session(0, 0, 0), session(18, 2)];
    expect(given({ sessions })).toMatchObject({
      reason: "few-sessions",
      judged: { rates: [0.95, 0.9], marks: 40 },
    });
    expect(given({ sessions: [...sessions, session(19, 1, 5)] }).decision).toBe("thin-cues");
  });
  it("with fewer than thirty answered cues in all", () => {
    expect(given({ sessions: times(5, 5, 0) })).toMatchObject({
      decision: "not-enough-data",
      reason: "few-cues",
      judged: { marks: 25 },
    });
    expect(given({ sessions: times(6, 5, 0) })).toMatchObject({
      decision: "thin-cues",
      judged: { marks: 30 },
    });
  });
  it("when one of the last three sessions has marks at fewer than half its cues, however good those before", () => {
    const held = times(3, 19, 1);
    for (const newest of [session(0, 2, 8), session(0, 0, 10)]) {
      expect(given({ sessions: [...held, newest, newest, newest] })).toMatchObject({
        decision: "not-enough-data",
        reason: "few-answers",
      });
      expect(given({ sessions: [...held, newest] }).reason).toBe("few-answers");
      expect(given({ sessions: [newest, ...held] }).decision).toBe("thin-cues");
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

  it("steps back when the rate is very likely below the goal", () => {
    const sessions = [session(9, 1), session(7, 3), session(7, 3), session(6, 4)];
    expect(given({ sessions, place: 2 })).toMatchObject({
      decision: "step-back",
      reason: "below-goal",
      toPlace: 1,
      judged: { rates: [0.7, 0.7, 0.6], marks: 30 },
    });
    expect(given({ sessions, place: 0 })).toMatchObject({
      decision: "ask-what-changed",
      reason: "below-goal-at-first-step",
      toPlace: 0,
    });
  });

  it("keeps going in between, and wants a decision after two weeks", () => {
    for (const sessions of [[session(9, 1), session(7, 3), session(8, 2)], times(3, 8, 2)]) {
      expect(given({ sessions })).toMatchObject({
        decision: "keep-going",
        reason: "goal-not-yet-held",
      });
      expect(given({ sessions, daysHere: 11 }).decision).toBe("keep-going");
      // A Monday to the Friday of the week after.
      expect(given({ sessions, daysHere: 12 })).toMatchObject({
        decision: "two-weeks-over",
        reason: "undecided-for-two-weeks",
        toPlace: 0,
      });
      expect(given({ sessions, daysHere: 40, place: 5 }).decision).toBe("keep-going");
    }
    expect(given({ daysHere: 40 }).decision).toBe("thin-cues");
  });

  it("takes no cues away while less of the work gets done", () => {
    const work = { now: 0.7, before: 0.8 };
    expect(given({ work })).toMatchObject({
      decision: "look-at-work",
      reason: "work-falls",
      toPlace: 0,
    });
    expect(given({ work: { now: 0.71, before: 0.8 } }).decision).toBe("thin-cues");
    expect(given({ work: { now: 0.9, before: 0.5 } }).decision).toBe("thin-cues");
  });
});

describe("work done", () => {
  it("is that of the newest three sessions beside the ten before", () => {
    expect(workTrend([0.9, 0.8, 0.9, 0.7, 0.6, 0.5])).toEqual({
      now: expect.closeTo(0.6, 12),
      before: expect.closeTo(2.6 / 3, 12),
    });
    const long = [...Array.from({ length: 20 }, () => 0), ...Array.from({ length: 13 }, () => 1)];
    expect(workTrend(long)).toEqual({ now: 1, before: 1 });
    expect(workTrend([1, 1, 1, 1, 1])).toBeNull();
    expect(workFalls(null)).toBe(false);
  });
});

describe("the chance of being at the goal", () => {
  it("is even at the goal itself, and rises with the rate and with the number of cues", () => {
    const chance = (count: number, on: number, off: number) =>
      judge(times(count, on, off), 0.8).chance ?? -1;
    expect(chance(3, 8, 2)).toBeCloseTo(0.5, 12);
    expect(chance(3, 9, 1)).toBeGreaterThan(chance(3, 8, 2));
    expect(chance(3, 18, 2)).toBeGreaterThan(chance(3, 9, 1));
    expect(chance(3, 7, 3) + chance(3, 9, 1)).toBeCloseTo(1, 12);
  });

  it("is the normal score with neighbours correlated at .2", () => {
    // 27 of 30: variance 1.29333 (.16/30 + .0025/3); pnorm(.1/sqrt(...)) = 0.868 by R 4.2.2.
    expect(meanInflation(3, 0.2)).toBeCloseTo(1 + (4 / 3) * 0.2 + (2 / 3) * 0.04, 12);
    expect(judge(times(3, 9, 1), 0.8).chance).toBeCloseTo(0.868588996, 6);
  });

  it("is less sure of a record whose sessions scatter", () => {
    const scattered = [session(10, 0), session(7, 3), session(10, 0)];
    const even = judge(times(3, 9, 1), 0.8).chance ?? 0;
    const uneven = judge(scattered, 0.8);
    expect(uneven.rate).toBe(0.9);
    expect(uneven.chance).toBeLessThan(even);
    // Design effect of these three 3.33 (Rao and Scott), with five more at 1: (2 x 3.33 + 5) / 7 = 1.667.
    const variance = meanInflation(3, 0.2) * ((0.16 * (11.6667 / 7)) / 30 + 0.0025 / 3);
    expect(uneven.chance).toBeCloseTo(normalCdf(0.1 / Math.sqrt(variance)), 4);
  });

  it("can be told for every goal, 100 % too", () => {
    expect(judge(times(3, 20, 0), 1).chance).toBeGreaterThan(0.8);
    expect(judge(times(3, 0, 20), 0).chance).toBeLessThan(0.2);
    expect(judge([], 0.8)).toEqual({ rates: [], marks: 0, rate: null, chance: null });
    expect(() => judge([], 1.2)).toThrow("from 0 to 1; got 1.2");
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
