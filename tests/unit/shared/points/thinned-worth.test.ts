import { describe, expect, it } from "vitest";
import { type EarningRules, noRules } from "../../../../shared/plan/earning.ts";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import { sessionIncome } from "../../../../shared/points/income.ts";
import { thinnedWorth } from "../../../../shared/points/thinned-worth.ts";
import { truthPays, usualRules, usualTimes } from "../../../../shared/points/truth.ts";
import { keptCounts } from "../../../../shared/schedule/kept-counts.ts";

const thinner = (meanSeconds: number) => ({ ...firstPlan, meanSeconds });
const recorder = {
  onTask: 0.8,
  answers: 0.95,
  designEffect: 1.6,
  checked: 0,
  matching: 0.9,
  items: 0,
};

const income = (plan: typeof firstPlan, paid: EarningRules, share: number) =>
  sessionIncome(keptCounts(plan), paid, { ...recorder, checked: share }).mean;

describe("what thinner cues pay", () => {
  // One cue in seven checked: at a cue every ten minutes a match would have to pay 35.
  const shares = [0.5, 0.3, 0.15, 1 / 12];
  const cases = shares.flatMap((share) => [180, 300, 600].map((mean) => [share, mean] as const));

  it.each(cases)("with %f checked is no less than before, at a cue every %i s", (share, mean) => {
    const rules = usualRules(share);
    const after = thinnedWorth({ kind: "usual", rules }, firstPlan, thinner(mean));
    // The usual rule stays the usual rule: its match follows the checks at each start.
    if (after.kind !== "usual") throw new Error("no longer the usual rule");
    const paid = usualRules(share, usualTimes(after.rules));
    expect(income(thinner(mean), paid, share)).toBeGreaterThanOrEqual(
      income(firstPlan, rules, share) - 1e-6,
    );
    expect(truthPays(paid, share)).toBe("pays");
    expect(paid.match).toBeLessThanOrEqual(20);
  });

  it.each(cases)("under own rules, with %f checked and a cue every %i s", (share, mean) => {
    const rules = usualRules(share);
    const after = thinnedWorth({ kind: "own", rules }, firstPlan, thinner(mean));
    if (after.kind !== "own") throw new Error("no longer the teacher's own");
    expect(income(thinner(mean), after.rules, share)).toBeGreaterThanOrEqual(
      income(firstPlan, rules, share) - 1e-6,
    );
    expect(truthPays(after.rules, share)).toBe("pays");
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
