import { describe, expect, it } from "vitest";
import { noRules } from "../../../../shared/plan/earning.ts";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import { sessionIncome } from "../../../../shared/points/income.ts";
import { thinnedWorth } from "../../../../shared/points/thinned-worth.ts";
import { truthPays, usualRules } from "../../../../shared/points/truth.ts";
import { keptCounts } from "../../../../shared/schedule/kept-counts.ts";

const thinner = (meanSeconds: number) => ({ ...firstPlan, meanSeconds });
const recorder = {
  onTask: 0.8,
  answers: 0.95,
  designEffect: 1.6,
  checked: 0.5,
  matching: 0.9,
  items: 0,
};

describe("what thinner cues pay", () => {
  it.each([180, 300, 600])("is no less than before, down to a cue every %i s", (meanSeconds) => {
    const rules = usualRules(0.5);
    const after = thinnedWorth({ kind: "usual", rules }, firstPlan, thinner(meanSeconds));
    if (after.kind === "none") throw new Error("nothing is paid");
    const income = (plan: typeof firstPlan, paid: typeof rules) =>
      sessionIncome(keptCounts(plan), paid, recorder).mean;
    expect(income(thinner(meanSeconds), after.rules)).toBeGreaterThanOrEqual(
      income(firstPlan, rules) - 1e-6,
    );
    expect(truthPays(after.rules, 0.5)).toBe("pays");
  });

  it("leaves what goes by no mark, denser cues, and nothing", () => {
    const rules = { ...noRules, mark: 1, minute: 2, item: 1 };
    const after = thinnedWorth({ kind: "own", rules }, firstPlan, thinner(240));
    expect(after).toMatchObject({ kind: "own", rules: { mark: 2, minute: 2, item: 1, on: 0 } });
    const own = { kind: "own", rules } as const;
    expect(thinnedWorth(own, thinner(240), firstPlan)).toBe(own);
    expect(thinnedWorth({ kind: "none" }, firstPlan, thinner(240))).toEqual({ kind: "none" });
  });
});
