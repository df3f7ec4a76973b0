import { describe, expect, it } from "vitest";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import { checkPlan } from "../../../../shared/schedule/check-plan.ts";
import { sessionSchedule } from "../../../../shared/schedule/session-schedule.ts";
import { lookIntervals, planForKind } from "../../../../shared/session/kind-plan.ts";
import { mostObserved, observedAt } from "../../../../shared/session/observation-rotation.ts";

const thin = {
  ...firstPlan,
  law: "fixed",
  meanSeconds: 600,
  lengthSeconds: 1_800,
  leadInSeconds: 300,
  endMarginSeconds: 300,
} as const;

describe("The plan of a session by its kind", () => {
  it("leaves seatwork as the teacher planned it", () => {
    expect(planForKind(thin, "seatwork")).toBe(thin);
  });

  it("cues a practice densely for five minutes", () => {
    const practice = planForKind(thin, "practice");
    expect(practice).toMatchObject({ lengthSeconds: 300, meanSeconds: 30, cueing: "sound" });
    expect(checkPlan(practice)).toEqual([]);
  });

  it.each([
    ["sound", "sound"],
    ["silent", "silent"],
    ["teacher", "sound"],
  ] as const)(
    "cues the class in a practice under a plan that cues by %s: by %s",
    (cueing, cued) => {
      expect(planForKind({ ...thin, cueing }, "practice").cueing).toBe(cued);
    },
  );

  it.each(lookIntervals)(
    "observes at unpredictable moments about every %i seconds, whatever the plan, and cues nobody else",
    (seconds) => {
      for (const kind of ["baseline", "probe"] as const) {
        const plan = planForKind(thin, kind, seconds);
        expect(plan).toMatchObject({ law: "exponential", meanSeconds: seconds, cueing: "teacher" });
        expect(plan.lengthSeconds).toBe(thin.lengthSeconds);
        expect(checkPlan(plan)).toEqual([]);
      }
    },
  );

  it("gives each of six students about ten looks in twenty minutes at the usual pace", () => {
    const ids = Array.from({ length: mostObserved }, (_, index) => `student ${index}`);
    const seeds = Array.from({ length: 50 }, (_, index) => `looks ${index}`);
    const perStudent = seeds.map((seed) => {
      const { cues } = sessionSchedule(planForKind(firstPlan, "baseline"), seed);
      const looks = cues.filter((_, index) => observedAt(index + 1, ids, seed) === ids[0]);
      return looks.length;
    });
    const mean = perStudent.reduce((sum, looks) => sum + looks, 0) / perStudent.length;
    expect(mean).toBeGreaterThan(9);
    expect(mean).toBeLessThan(11);
    expect(Math.min(...perStudent)).toBeGreaterThanOrEqual(6);
  });
});
