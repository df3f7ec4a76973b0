import fc from "fast-check";
import {
  checkPaces,
  chimeNames,
  cueingWays,
  lawNames,
  type PlanSettings,
} from "../../../shared/plan/plan.ts";
import { checkPlan } from "../../../shared/schedule/check-plan.ts";

const length = (most: number) =>
  fc.oneof(
    fc.integer({ min: 0, max: most }),
    fc.double({ min: 0, max: most, noNaN: true }).map((seconds) => Math.round(seconds * 10) / 10),
  );

/** Plans as the schema lets them in, sound or not. */
export const anyPlan: fc.Arbitrary<PlanSettings> = fc.record({
  law: fc.constantFrom(...lawNames),
  meanSeconds: fc.oneof(length(300), length(20_000)),
  shortestGapSeconds: fc.oneof(length(100), length(20_000)),
  longestGapSeconds: fc.option(fc.oneof(length(1000), length(40_000))),
  lengthSeconds: fc.oneof(length(3600), length(20_000)),
  leadInSeconds: fc.oneof(fc.constant(0), length(5000)),
  endMarginSeconds: fc.oneof(fc.constant(0), length(5000)),
  fewestCues: fc.oneof(fc.integer({ min: 0, max: 8 }), fc.integer({ min: 0, max: 500 })),
  fewestCuesUnthinned: fc.option(fc.integer({ min: 0, max: 500 })),
  chime: fc.constantFrom(...chimeNames),
  volume: fc.oneof(fc.constant(0), fc.double({ min: 0, max: 1, noNaN: true })),
  cueing: fc.constantFrom(...cueingWays),
  recording: fc.constantFrom("screen", "paper", "seat"),
  hideNextCue: fc.boolean(),
  studentsPerCheck: fc.integer({ min: 1, max: 4 }),
  checkPace: fc.constantFrom(...checkPaces),
  subject: fc.constant(""),
  earning: fc.constant({ kind: "none" } as const),
});

/** Plans that can be run: any plan, repaired. */
export const soundPlan = anyPlan.map((plan) => checkPlan(plan)[0]?.nearest ?? plan);
