import { describe, expect, it } from "vitest";
import { usualLookInterval } from "../../../../shared/session/kind-plan.ts";
import { mostObserved } from "../../../../shared/session/observation-rotation.ts";
import { sheetInAddress, sheetOptions } from "../../../../src/parts/sheet-options.ts";

const roster = ["a", "b", "c", "d", "e", "f", "g", "h"];

describe("the options of a printed sheet in an address", () => {
  it("come back on the start page as they were on the sheet", () => {
    const params = sheetOptions({ seed: "quiet moss", studentIds: ["h", "b"], pace: 30 });
    params.set("plan", "p");
    expect(sheetInAddress(new URLSearchParams(params.toString()), roster)).toEqual({
      kind: "baseline",
      planId: "p",
      studentIds: ["b", "h"],
      missing: 0,
      pace: 30,
      seed: "quiet moss",
    });
  });

  it("tell of students who have left since the sheet was printed", () => {
    const params = sheetOptions({ seed: "s", studentIds: ["a", "gone", "away"], pace: 20 });
    expect(sheetInAddress(params, roster)).toMatchObject({ studentIds: ["a"], missing: 2 });
  });

  it("are the usual ones where the address says nothing, or nonsense", () => {
    const usual = {
      kind: "baseline",
      planId: null,
      studentIds: roster.slice(0, mostObserved),
      missing: 0,
      pace: usualLookInterval,
      seed: "",
    };
    expect(sheetInAddress(new URLSearchParams(), roster)).toEqual(usual);
    expect(sheetInAddress(new URLSearchParams("every=7&kind=x&students="), roster)).toEqual(usual);
    expect(sheetOptions({ seed: "", studentIds: ["a"], pace: 15 }).has("seed")).toBe(false);
  });
});
