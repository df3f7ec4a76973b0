import { describe, expect, it } from "vitest";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import { checkPlan } from "../../../../shared/schedule/check-plan.ts";
import { evenFadingSteps, fadedPlan, fadingList } from "../../../../shared/schedule/fading.ts";
import { guess } from "../../../../shared/schedule/guess.ts";
import { sessionSchedule } from "../../../../shared/schedule/session-schedule.ts";

const steps = [
  { meanSeconds: 120, sessions: 3 },
  { meanSeconds: 180, sessions: 2 },
  { meanSeconds: 300, sessions: 2 },
];

describe("a fading list", () => {
  it("steps the mean up session by session", () => {
    const list = fadingList(firstPlan, "spring", steps);
    expect(list.map(({ plan }) => plan.meanSeconds)).toEqual([120, 120, 120, 180, 180, 300, 300]);
    expect(list.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5, 6, 7]);
    expect(list.flatMap(({ problems }) => problems)).toEqual([]);
  });

  it("gives every session a seed of its own that later changes leave alone", () => {
    const before = fadingList(firstPlan, "spring", steps);
    const longer = fadingList(firstPlan, "spring", [...steps, { meanSeconds: 400, sessions: 4 }]);
    const cuesOf = (list: typeof before) =>
      list.map(({ plan, seed }) => sessionSchedule(plan, seed).cues);
    expect(cuesOf(longer).slice(0, 7)).toEqual(cuesOf(before));
    expect(new Set(before.map(({ seed }) => seed)).size).toBe(7);
    expect(cuesOf(before)[0]).not.toEqual(cuesOf(before)[1]);
  });

  it("keeps the shape of the law, so a thinner step is no easier to guess", () => {
    const plan = { ...firstPlan, longestGapSeconds: 300 };
    const thinner = fadedPlan(plan, 240);
    expect(thinner.shortestGapSeconds).toBe(40);
    expect(thinner.longestGapSeconds).toBe(600);
    expect(guess(thinner).beatsChanceBy).toBeCloseTo(guess(plan).beatsChanceBy, 6);
  });

  it("lowers a floor that a thinner step cannot meet, and nothing else in silence", () => {
    const thinner = fadedPlan({ ...firstPlan, fewestCues: 8 }, 300);
    expect(thinner.fewestCues).toBe(4);
    expect(thinner.meanSeconds).toBe(300);
    const [tooThin] = fadingList(firstPlan, "spring", [{ meanSeconds: 1500, sessions: 1 }]);
    expect(tooThin?.plan.meanSeconds).toBe(1500);
    expect(tooThin?.problems.map(({ code }) => code)).toEqual(["lengthShorterThanMean"]);
  });

  it("comes back to what was asked: a step back undoes a step up", () => {
    const plan = { ...firstPlan, fewestCues: 8, longestGapSeconds: 220 };
    const thinner = fadedPlan(plan, 300);
    expect(thinner).toMatchObject({ fewestCues: 4, fewestCuesUnthinned: 8 });
    expect(fadedPlan(thinner, 120)).toEqual(plan);
    // Part of the way back, part of the floor.
    expect(fadedPlan(thinner, 180)).toMatchObject({ fewestCues: 6, fewestCuesUnthinned: 8 });
  });

  it("restores gaps to the millisecond from any step, at the edge of what its law can keep too", () => {
    const plan = { ...firstPlan, fewestCues: 0, longestGapSeconds: 220 };
    for (let mean = 121; mean <= 1200; mean++) {
      const there = fadedPlan(plan, mean);
      expect(checkPlan(there)).toEqual([]);
      expect(fadedPlan(there, 120)).toEqual(plan);
    }
  });

  it("takes a floor that somebody set by hand as what was asked", () => {
    const byHand = { ...fadedPlan({ ...firstPlan, fewestCues: 8 }, 300), fewestCues: 2 };
    const back = fadedPlan({ ...byHand, fewestCuesUnthinned: null }, 120);
    expect(back).toMatchObject({ fewestCues: 2, fewestCuesUnthinned: null });
  });

  it("can be made of steps that grow by the same factor", () => {
    const even = evenFadingSteps({
      firstMeanSeconds: 60,
      lastMeanSeconds: 480,
      steps: 4,
      sessionsPerStep: 5,
    });
    expect(even.map(({ meanSeconds }) => meanSeconds)).toEqual([60, 120, 240, 480]);
    expect(even.map(({ sessions }) => sessions)).toEqual([5, 5, 5, 5]);
  });

  it.each([
    ["one step is no list", 60, 480, 1],
    ["two seconds do not make five steps", 120, 122, 5],
    ["cues do not grow denser", 480, 60, 4],
    ["nothing grows from zero", 0, 60, 3],
    ["a mean must be a number", 60, Number.NaN, 3],
  ])("refuses steps that do not grow: %s", (_, firstMeanSeconds, lastMeanSeconds, steps) => {
    expect(() =>
      evenFadingSteps({ firstMeanSeconds, lastMeanSeconds, steps, sessionsPerStep: 5 }),
    ).toThrow(RangeError);
  });

  it("grows by a factor that only whole seconds bend", () => {
    const even = evenFadingSteps({
      firstMeanSeconds: 120,
      lastMeanSeconds: 124,
      steps: 5,
      sessionsPerStep: 1,
    });
    expect(even.map(({ meanSeconds }) => meanSeconds)).toEqual([120, 121, 122, 123, 124]);
  });
});
