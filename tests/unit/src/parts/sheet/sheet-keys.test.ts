import type { KeyboardEvent } from "react";
import { describe, expect, it } from "vitest";
import { type Place, placeAfter } from "../../../../../src/parts/sheet/sheet-keys.ts";

const [rows, boxes] = [3, 4];

/** Where a key leads from a box of a sheet of three rows and four boxes. */
function leadsTo(key: string, row: number, box: number, shiftKey = false): Place | null {
  // Only these two fields of a keyboard event are looked at.
  return placeAfter({ key, shiftKey } as KeyboardEvent, { row, box }, rows, boxes);
}

describe("moving keys of a sheet", () => {
  it("step to the next box and stop at the edges", () => {
    expect(leadsTo("ArrowRight", 1, 2)).toEqual({ row: 1, box: 3 });
    expect(leadsTo("ArrowLeft", 1, 2)).toEqual({ row: 1, box: 1 });
    expect(leadsTo("ArrowUp", 1, 2)).toEqual({ row: 0, box: 2 });
    expect(leadsTo("ArrowDown", 1, 2)).toEqual({ row: 2, box: 2 });
    expect(leadsTo("ArrowRight", 1, 4)).toEqual({ row: 1, box: 4 });
    expect(leadsTo("ArrowLeft", 1, 1)).toEqual({ row: 1, box: 1 });
    expect(leadsTo("ArrowUp", 0, 2)).toEqual({ row: 0, box: 2 });
    expect(leadsTo("ArrowDown", 2, 2)).toEqual({ row: 2, box: 2 });
  });

  it("go to both ends of a row, and to the next card", () => {
    expect(leadsTo("Home", 1, 3)).toEqual({ row: 1, box: 1 });
    expect(leadsTo("End", 1, 3)).toEqual({ row: 1, box: 4 });
    expect(leadsTo("Enter", 1, 3)).toEqual({ row: 2, box: 1 });
    expect(leadsTo("Enter", 2, 3)).toEqual({ row: 2, box: 3 });
  });

  it("go through all boxes with Tab and out of the sheet at its two corners", () => {
    expect(leadsTo("Tab", 0, 3)).toEqual({ row: 0, box: 4 });
    expect(leadsTo("Tab", 0, 4)).toEqual({ row: 1, box: 1 });
    expect(leadsTo("Tab", 2, 4)).toBeNull();
    expect(leadsTo("Tab", 1, 1, true)).toEqual({ row: 0, box: 4 });
    expect(leadsTo("Tab", 1, 3, true)).toEqual({ row: 1, box: 2 });
    expect(leadsTo("Tab", 0, 1, true)).toBeNull();
  });

  it("lead from the place past the last box back into the sheet", () => {
    const pastEnd = boxes + 1;
    expect(leadsTo("ArrowLeft", 1, pastEnd)).toEqual({ row: 1, box: 4 });
    expect(leadsTo("ArrowDown", 1, pastEnd)).toEqual({ row: 2, box: 4 });
    expect(leadsTo("ArrowUp", 1, pastEnd)).toEqual({ row: 0, box: 4 });
    expect(leadsTo("Tab", 1, pastEnd)).toEqual({ row: 2, box: 1 });
    expect(leadsTo("Tab", 1, pastEnd, true)).toEqual({ row: 1, box: 4 });
    expect(leadsTo("Enter", 1, pastEnd)).toEqual({ row: 2, box: 1 });
  });

  it("are no others", () => {
    for (const key of ["+", "a", "Escape", "Backspace", "F2"])
      expect(leadsTo(key, 1, 1)).toBeNull();
  });
});
