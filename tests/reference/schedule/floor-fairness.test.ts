import { describe, expect, it } from "vitest";
import { firstPlan, type PlanSettings } from "../../../shared/plan/plan.ts";
import { bestCatch } from "../../../shared/schedule/best-catch.ts";
import { chanceOfAtLeast } from "../../../shared/schedule/cue-count.ts";
import { guess } from "../../../shared/schedule/guess.ts";
import { sessionSchedule } from "../../../shared/schedule/session-schedule.ts";
import { type RandomStream, randomStream } from "../../../shared/schedule/stream.ts";

// Twenty minutes at a mean of two: ten cues expected. Fixed seeds, so these figures never change.
const sessions = 12_000;
const minutes = (count: number) => count * 60;

function schedules(plan: PlanSettings): (readonly number[])[] {
  return Array.from(
    { length: sessions },
    (_, index) => sessionSchedule(plan, `fair-${index}`).cues,
  );
}

/** Cues a session between two moments, and the standard error of that figure. */
function cuesBetween(all: readonly (readonly number[])[], from: number, to: number) {
  const counts = all.map((cues) => cues.filter((cue) => cue > from && cue <= to).length);
  const mean = counts.reduce((sum, count) => sum + count, 0) / counts.length;
  const variance = counts.reduce((sum, count) => sum + (count - mean) ** 2, 0) / counts.length;
  return { mean, error: Math.sqrt(variance / counts.length) };
}

/** By how many standard errors the last two minutes have more cues than two minutes in the middle. */
function excessAtTheEnd(all: readonly (readonly number[])[]): number {
  const last = cuesBetween(all, minutes(18), minutes(20));
  const middle = cuesBetween(all, minutes(8), minutes(10));
  return (last.mean - middle.mean) / Math.hypot(last.error, middle.error);
}

/** Best share of the last four minutes' cues caught in a quarter of the time, by time since the last cue. */
function caughtAtTheEnd(all: readonly (readonly number[])[]): number {
  const width = 15;
  const ages = Array.from({ length: 40 }, () => ({ cues: 0, time: 0 }));
  for (const cues of all) {
    const starts = [0, ...cues];
    for (const [index, start] of starts.entries()) {
      const cue = cues[index] ?? Number.POSITIVE_INFINITY;
      for (const [bin, age] of ages.entries()) {
        const from = Math.max(start + bin * width, minutes(16));
        const to = Math.min(start + (bin + 1) * width, cue, minutes(20));
        if (to <= from) continue;
        age.time += to - from;
        if (to === cue) age.cues += 1;
      }
    }
  }
  return bestCatch(ages, 0.25);
}

/** What is NOT done: cues that are missing are put into the last two minutes. */
function filledUp(cues: readonly number[], floor: number, stream: RandomStream): number[] {
  const missing = Math.max(0, floor - cues.length);
  const added = Array.from({ length: missing }, () => minutes(18) + stream() * minutes(2));
  return [...cues, ...added].sort((one, other) => one - other);
}

describe("forcing a number of cues", () => {
  const floors = [4, 6, 8, 10];

  it.each(floors)(
    "to at least %i makes the last minutes no likelier by the clock",
    (fewestCues) => {
      for (const shortestGapSeconds of [0, 20]) {
        const all = schedules({ ...firstPlan, shortestGapSeconds, fewestCues });
        expect(excessAtTheEnd(all)).toBeLessThan(3);
      }
    },
  );

  it("by filling up at the end would be noticed by the same measure", () => {
    const stream = randomStream("filling", "up");
    const free = schedules({ ...firstPlan, fewestCues: 0 });
    const filled = free.map((cues) => filledUp(cues, 8, stream));
    expect(excessAtTheEnd(filled)).toBeGreaterThan(10);
  });

  it("helps a listener by time since the last cue hardly at all in the last minutes", () => {
    const free = caughtAtTheEnd(schedules({ ...firstPlan, fewestCues: 0 }));
    // A floor that nine of ten free draws meet anyway, then the highest that is let in.
    expect(chanceOfAtLeast(firstPlan, 6)).toBeGreaterThan(0.9);
    const usual = caughtAtTheEnd(schedules({ ...firstPlan, fewestCues: 6 }));
    expect(usual - free).toBeLessThan(0.01);
    const highest = caughtAtTheEnd(schedules({ ...firstPlan, fewestCues: 10 }));
    expect(highest - free).toBeLessThan(0.03);
  });

  it("is reported when a listener who counts and knows the floor could gain", () => {
    const gains = [1, 4, 6, 8, 10].map(
      (fewestCues) => guess({ ...firstPlan, fewestCues }).floorGivesAway,
    );
    expect(gains[0]).toBe(0);
    expect(gains[2]).toBeLessThan(0.05);
    expect(gains).toEqual([...gains].sort((one, other) => one - other));
    expect(guess({ ...firstPlan, fewestCues: 6 }).verdict).toBe("hardToGuess");
    expect(guess({ ...firstPlan, fewestCues: 10 }).verdict).toBe("canBeGuessed");
  });
});
