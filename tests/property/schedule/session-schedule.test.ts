import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mostLikelyCues } from "../../../shared/schedule/most-likely-cues.ts";
import { planLaw } from "../../../shared/schedule/plan-law.ts";
import { sessionSchedule } from "../../../shared/schedule/session-schedule.ts";
import { soundPlan } from "./any-plan.ts";

const milliseconds = (seconds: number) => Math.round(seconds * 1000);

describe("the schedule of any plan that passes its check", () => {
  it("keeps order, gaps, lead-in, end margin and floor", () => {
    fc.assert(
      fc.property(soundPlan, fc.string(), (plan, seed) => {
        const { cues } = sessionSchedule(plan, seed);
        expect(cues.length).toBeGreaterThanOrEqual(plan.fewestCues);
        const longest = planLaw(plan).longestSeconds;
        let previous = milliseconds(plan.leadInSeconds);
        for (const cue of cues.map(milliseconds)) {
          expect(cue).toBeGreaterThan(previous);
          // Both ends of a gap are rounded to the millisecond.
          expect(cue - previous).toBeGreaterThanOrEqual(plan.shortestGapSeconds * 1000 - 1);
          expect(cue - previous).toBeLessThanOrEqual(longest * 1000 + 1);
          previous = cue;
        }
        const end = milliseconds(plan.lengthSeconds - plan.endMarginSeconds);
        expect(previous).toBeLessThanOrEqual(end);
        expect(cues).toEqual(cues.map((cue) => milliseconds(cue) / 1000));
      }),
      { numRuns: 500 },
    );
  });

  it("keeps whole-millisecond shortest gaps to the millisecond", () => {
    fc.assert(
      fc.property(fc.string(), fc.integer({ min: 0, max: 60_000 }), (seed, shortest) => {
        const plan = {
          law: "exponential",
          meanSeconds: 61,
          shortestGapSeconds: shortest / 1000,
          longestGapSeconds: null,
          lengthSeconds: 3600,
          leadInSeconds: 0,
          endMarginSeconds: 0,
          fewestCues: 1,
          fewestCuesUnthinned: null,
          chime: "bell",
          volume: 0.5,
          cueing: "sound",
          recording: "screen",
          hideNextCue: true,
          studentsPerCheck: 2,
          checkPace: "automatic",
          subject: "",
          earning: { kind: "none" },
        } as const;
        const cues = sessionSchedule(plan, seed).cues.map(milliseconds);
        for (const [index, cue] of cues.entries()) {
          expect(cue - (cues[index - 1] ?? 0)).toBeGreaterThanOrEqual(shortest);
        }
      }),
    );
  });

  it("is the same for the same seed, and differs between students of one session", () => {
    fc.assert(
      fc.property(soundPlan, fc.string(), (plan, seed) => {
        expect(sessionSchedule(plan, seed)).toEqual(sessionSchedule(plan, seed));
        const one = sessionSchedule(plan, seed, { studentId: "one" });
        const other = sessionSchedule(plan, seed, { studentId: "other" });
        expect(sessionSchedule(plan, seed, { studentId: "one" })).toEqual(one);
        // Few cues in a narrow range may agree by chance.
        fc.pre(plan.law === "exponential" && one.cues.length >= 5);
        expect(other.cues).not.toEqual(one.cues);
      }),
    );
  });

  it("rarely has more cues than room was made for", () => {
    fc.assert(
      fc.property(soundPlan, (plan) => {
        fc.pre(plan.lengthSeconds / plan.meanSeconds < 200);
        const most = mostLikelyCues(plan);
        let over = 0;
        for (let session = 0; session < 100; session++) {
          if (sessionSchedule(plan, `room-${session}`).cues.length > most) over += 1;
        }
        // At most 1 in 100 is expected; 8 or more of 100 would come by chance once in 100 000 plans.
        expect(over).toBeLessThan(8);
      }),
      { numRuns: 60, seed: 1962 },
    );
  });
});
