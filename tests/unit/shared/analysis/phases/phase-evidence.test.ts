import { describe, expect, it } from "vitest";
import { phaseEvidence } from "../../../../../shared/analysis/phases/phase-evidence.ts";
import { mannWhitney } from "../../../../../shared/statistics/mann-whitney.ts";

const low = (count: number) => Array.from({ length: count }, (_, at) => 0.3 + at / 100);
const high = (count: number) => Array.from({ length: count }, (_, at) => 0.8 + at / 100);

describe("wording of a difference between phases", () => {
  // Exact p without overlap: 3 v 3 .10, 3 v 4 .057, 3 v 5 .036, 4 v 4 .029 (counted by hand).
  it.each([
    [3, 3, "probable"],
    [3, 4, "probable"],
    [3, 5, "clear"],
    [4, 4, "clear"],
    [6, 6, "clear"],
  ])("%i points wholly below %i: %s", (before, after, evidence) => {
    expect(phaseEvidence(low(before), high(after))).toBe(evidence);
    expect(phaseEvidence(high(before), low(after))).toBe(evidence);
  });

  it("cannot tell where the phases overlap much, or are all alike", () => {
    expect(phaseEvidence([0.4, 0.6, 0.5, 0.7], [0.5, 0.6, 0.7, 0.4])).toBe("cannot-tell");
    expect(phaseEvidence([1, 1, 1, 1, 1], [1, 1, 1, 1, 1])).toBe("cannot-tell");
  });

  it("says nothing on fewer than three points", () => {
    expect(phaseEvidence(low(2), high(9))).toBeNull();
    expect(phaseEvidence(low(9), high(2))).toBeNull();
    expect(phaseEvidence([], [])).toBeNull();
  });

  it("is the weaker answer where only the exact p holds back", () => {
    // One pair of 16 the wrong way: the exact p is 4/70 = .057 by hand (orders as far out, both ends).
    const before = [0.1, 0.2, 0.3, 0.55];
    const after = [0.5, 0.6, 0.7, 0.8];
    expect(mannWhitney(before, after)).toMatchObject({ u: 15, method: "exact" });
    expect(phaseEvidence(before, after)).toBe("probable");
  });
});

it("a test against an empty phase is a reason", () => {
  expect(mannWhitney([], [1])).toEqual({ kind: "not-computable", reason: "empty-phase" });
});
