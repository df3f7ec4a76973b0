import { describe, expect, it } from "vitest";
import {
  type PhaseSeries,
  phaseSummary,
} from "../../../../../shared/analysis/phases/phase-summary.ts";
import type { PhaseKind } from "../../../../../shared/phase/phase.ts";

function phase(kind: PhaseKind, from: number, ...values: number[]): PhaseSeries {
  return {
    kind,
    label: kind,
    source: "self",
    points: values.map((value, i) => ({ day: from + i, value })),
  };
}

const baseline = phase("baseline", 1, 0.4, 0.55, 0.45, 0.5, 0.35);
const program = phase("intervention", 6, 0.6, 0.5, 0.75, 0.8, 0.7, 0.85, 0.8);

describe("two phases (worked example E1 as rates)", () => {
  const summary = phaseSummary([baseline, program]);

  it("describes each", () => {
    expect(summary.phases).toMatchObject([
      { kind: "baseline", points: 5, standard: "meets", readiness: { decision: "ready" } },
      { kind: "intervention", points: 7, standard: "meets", readiness: null },
    ]);
  });

  it("compares them", () => {
    expect(summary.comparisons).toHaveLength(1);
    const [comparison] = summary.comparisons;
    expect(comparison).toMatchObject({ from: 0, to: 1, dualCriterion: { dual: { above: 7 } } });
    expect(comparison?.levelChange).toBeCloseTo(0.26428571, 8);
  });

  it("marks a comparison across sources", () => {
    expect(summary.comparisons[0]?.sourcesDiffer).toBe(false);
    const observed = { ...baseline, source: "observer" } as const;
    expect(phaseSummary([observed, program]).comparisons[0]?.sourcesDiffer).toBe(true);
  });

  it("puts points in time order first", () => {
    const shuffled = { ...program, points: [...program.points].reverse() };
    expect(phaseSummary([baseline, shuffled])).toEqual(summary);
  });

  it("tests a drawn start on these points", () => {
    const drawn = phaseSummary([baseline, program, phase("maintenance", 20, 0.1)], {
      permittedDays: [4, 5, 6, 7, 8],
      day: 6,
    });
    expect(drawn.randomization).toMatchObject({ kind: "computed", permitted: 5 });
    expect(summary.randomization).toBeNull();
  });

  it("does not test a drawn start that came with another recorder", () => {
    const observed = { ...baseline, source: "observer" } as const;
    const draw = { permittedDays: [4, 5, 6, 7, 8], day: 6 };
    expect(phaseSummary([observed, program], draw).randomization).toEqual({
      kind: "not-computable",
      reason: "sources-differ",
    });
  });

  it("says how firmly the difference may be worded, by interval and exact p", () => {
    expect(summary.comparisons[0]).toMatchObject({ evidence: "clear", riseBefore: 0 });
  });

  it("says that a rise was on its way before, and only where the later phase is higher", () => {
    // Worked example E2: Theil-Sen slope 5 a session over baseline's five, so 20 points in all.
    const rising = phase("baseline", 1, 0.2, 0.3, 0.25, 0.35, 0.4);
    const higher = phase("intervention", 6, 0.45, 0.5, 0.55, 0.6, 0.5, 0.65);
    const lower = phase("intervention", 6, 0.1, 0.1, 0.15);
    expect(phaseSummary([rising, higher]).comparisons[0]?.riseBefore).toBeCloseTo(0.2, 12);
    expect(phaseSummary([rising, lower]).comparisons[0]?.riseBefore).toBe(0);
  });

  it("says when a draw cannot be tested", () => {
    const drawn = phaseSummary([baseline], { permittedDays: [4, 9], day: 9 });
    expect(drawn.randomization).toEqual({
      kind: "not-computable",
      reason: "start-leaves-phase-empty",
    });
  });
});

describe("what the design can show about cause (What Works Clearinghouse 1.0, 2010)", () => {
  const again = phase("baseline", 20, 0.5, 0.4, 0.5);
  const back = phase("intervention", 30, 0.8, 0.9, 0.8);

  it.each<[string, PhaseSeries[], number, string]>([
    ["nothing", [], 0, "nothing-to-compare"],
    ["baseline only", [baseline], 0, "nothing-to-compare"],
    [
      "baseline and an empty program",
      [baseline, phase("intervention", 9)],
      0,
      "nothing-to-compare",
    ],
    ["baseline, program", [baseline, program], 1, "one-change-cannot-show-cause"],
    [
      "baseline, program, fading",
      [baseline, program, phase("fading", 20, 0.8)],
      1,
      "one-change-cannot-show-cause",
    ],
    ["baseline, program, baseline", [baseline, program, again], 2, "fewer-than-three-changes"],
    ["baseline, program, baseline, program", [baseline, program, again, back], 3, "none"],
    [
      "one point a phase, four times",
      [1, 2, 3, 4].map((day) => phase(day % 2 === 1 ? "baseline" : "intervention", day, day / 5)),
      0,
      "phases-too-short",
    ],
    [
      "a second baseline of two points",
      [baseline, program, phase("baseline", 20, 0.5, 0.4), back],
      1,
      "one-change-cannot-show-cause",
    ],
    ["program, fading", [program, phase("fading", 20, 0.8)], 0, "no-baseline"],
  ])("%s", (_, phases, changes, caution) => {
    expect(phaseSummary(phases)).toMatchObject({ changes, caution });
  });
});
