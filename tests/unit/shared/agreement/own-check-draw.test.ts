import { expect, it } from "vitest";
import { ownCheckDraw, secondsBetweenChecks } from "../../../../shared/agreement/own-check-draw.ts";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import { ownSchedule } from "../../../../shared/schedule/own-schedule.ts";

const ids = Array.from({ length: 24 }, (_, at) => `student ${at + 1}`);
const seeds = Array.from({ length: 200 }, (_, at) => `seed ${at}`);
const usual = { every: 4, studentsPerCheck: 2, earlierChecks: {}, closely: new Set<string>() };
const drawn = (seed: string, more: Partial<typeof usual> = {}) =>
  ownCheckDraw({ seed, planned: ownSchedule(firstPlan, seed, ids), ...usual, ...more });

it("asks for the one whose cue it is, never two within five seconds, and never for nobody", () => {
  for (const seed of seeds) {
    const checks = drawn(seed);
    expect(checks.length).toBeGreaterThan(0);
    const planned = ownSchedule(firstPlan, seed, ids);
    for (const check of checks) expect(planned).toContainEqual(check);
    const times = checks.map(({ seconds }) => seconds);
    for (const [at, time] of times.slice(1).entries()) {
      expect(time - (times[at] ?? 0)).toBeGreaterThanOrEqual(secondsBetweenChecks);
    }
  }
});

it("asks about as often as of a class that is cued together", () => {
  // Nine and a half cues of two minutes' mean in twenty minutes: a check at one of four, two students each.
  const all = seeds.reduce((sum, seed) => sum + drawn(seed).length, 0) / seeds.length;
  const planned =
    seeds.reduce((sum, seed) => sum + ownSchedule(firstPlan, seed, ids).length, 0) / seeds.length;
  expect(all).toBeGreaterThan((planned / 24 / 4) * 2 * 0.85);
  expect(all).toBeLessThan((planned / 24 / 4) * 2 * 1.05);
});

it("asks less for whoever was asked before, and at each cue for whoever is checked closely", () => {
  const earlierChecks = { "student 1": 2 };
  const times = (id: string) =>
    seeds.reduce(
      (sum, seed) =>
        sum + drawn(seed, { earlierChecks }).filter(({ studentId }) => studentId === id).length,
      0,
    );
  expect(times("student 1")).toBeLessThan(times("student 2") / 2);
  const closely = new Set(["student 3"]);
  const close = drawn("abc", { closely, every: 1_000 });
  const own = ownSchedule(firstPlan, "abc", ["student 3"]);
  expect(close.filter(({ studentId }) => studentId === "student 3").length).toBeGreaterThanOrEqual(
    own.length - 1,
  );
});
