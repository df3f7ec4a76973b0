import { describe, expect, it } from "vitest";
import { firstPlan, type PlanSettings } from "../../../../../../shared/plan/plan.ts";
import { guess } from "../../../../../../shared/schedule/guess.ts";
import { guessWords } from "../../../../../../src/screens/plan/outlook/guess-words.ts";

const wordsFor = (change: Partial<PlanSettings>) =>
  guessWords(guess({ ...firstPlan, fewestCues: 0, ...change }));

describe("What the page says of a plan's cues", () => {
  it.each([
    ["the first plan", {}, "guess.hardToGuess", null],
    ["fixed intervals", { law: "fixed" }, "guess.predictable", "guess.predictable.advice"],
    [
      "a narrow span",
      { law: "uniform", shortestGapSeconds: 100 },
      "guess.predictable",
      "guess.predictable.advice",
    ],
    ["a wide span", { law: "uniform" }, "guess.canBeGuessed", "guess.canBeGuessed.advice"],
    [
      "cards dealt from a block",
      { law: "balanced" },
      "guess.canBeGuessed",
      "guess.canBeGuessed.advice",
    ],
  ] as const)("warns as it must: %s", (_, change, sentence, advice) => {
    expect(wordsFor(change)).toMatchObject({ sentence, advice });
  });

  it("has no warning to spare for a plan that is hard to guess, and more gain the worse it is", () => {
    const gains = [
      wordsFor({ shortestGapSeconds: 0 }),
      wordsFor({}),
      wordsFor({ law: "uniform" }),
      wordsFor({ law: "uniform", shortestGapSeconds: 100 }),
    ].map(({ gain }) => gain);
    expect(gains).toEqual([...gains].sort((one, other) => one - other));
    expect(gains[0]).toBeLessThan(0.1);
    expect(Math.max(...gains)).toBeLessThanOrEqual(75);
  });

  it("tells one who remembers the block from one who forgets, where that differs", () => {
    const dealt = wordsFor({ law: "balanced" });
    const found = guess({ ...firstPlan, fewestCues: 0, law: "balanced" });
    expect(dealt.gain).toBeCloseTo(100 * found.blockGivesAway, 9);
    expect(dealt.forgetful).toBeCloseTo(100 * found.beatsChanceBy, 9);
    expect(wordsFor({}).forgetful).toBeNull();
    expect(wordsFor({ law: "fixed" }).forgetful).toBeNull();
  });

  it("counts in what the fewest cues give away", () => {
    const floored = guess({ ...firstPlan, fewestCues: 10 });
    expect(guessWords(floored).gain).toBeCloseTo(
      100 * Math.max(floored.beatsChanceBy, floored.floorGivesAway),
      9,
    );
  });
});
