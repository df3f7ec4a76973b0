import { describe, expect, it } from "vitest";
import { type Place, placeAfter } from "../../../../../src/parts/sheet/sheet-keys.ts";

const [rows, boxes] = [3, 4];

/** Where a key leads from a box of a sheet of three rows and four boxes. */
const leadsTo = (key: string, row: number, box: number): Place | null =>
  placeAfter({ key }, { row, box }, rows, boxes);

/** The same where each row has a place past its last box. */
const withPastEnd = (key: string, row: number, box: number): Place | null =>
  placeAfter({ key }, { row, box }, rows, boxes + 1, boxes);

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

  it("go to both ends of a row", () => {
    expect(leadsTo("Home", 1, 3)).toEqual({ row: 1, box: 1 });
    expect(leadsTo("End", 1, 3)).toEqual({ row: 1, box: 4 });
    expect(withPastEnd("End", 1, 3)).toEqual({ row: 1, box: 4 });
  });

  it("reach the place past the last box and lead back from it", () => {
    const pastEnd = boxes + 1;
    expect(withPastEnd("ArrowRight", 1, 4)).toEqual({ row: 1, box: pastEnd });
    expect(withPastEnd("ArrowLeft", 1, pastEnd)).toEqual({ row: 1, box: 4 });
    expect(withPastEnd("ArrowDown", 1, pastEnd)).toEqual({ row: 2, box: 4 });
    expect(withPastEnd("ArrowUp", 1, pastEnd)).toEqual({ row: 0, box: 4 });
  });

  it("do not keep Tab, which leaves the sheet", () => {
    expect(leadsTo("Tab", 0, 3)).toBeNull();
    expect(leadsTo("Tab", 1, 1)).toBeNull();
  });

  it("are no others", () => {
    for (const key of ["+", "a", "Enter", "Escape", "Backspace", "F2"])
      expect(leadsTo(key, 1, 1)).toBeNull();
  });
});
