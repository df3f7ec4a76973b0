import { describe, expect, it } from "vitest";
import { firstPlan, lawNames } from "../../../shared/plan/plan.ts";
import { guess } from "../../../shared/schedule/guess.ts";
import { planLaw } from "../../../shared/schedule/plan-law.ts";
import { simulatedGuess } from "./simulated-guess.ts";

describe("a simulated listener who learns by listening", () => {
  it.each(lawNames)("catches the computed share of cues under %s intervals", (law) => {
    const plan = { ...firstPlan, law };
    const achieved = simulatedGuess(planLaw(plan));
    expect(Math.abs(achieved - guess(plan).caughtShare)).toBeLessThan(0.02);
  });
});
