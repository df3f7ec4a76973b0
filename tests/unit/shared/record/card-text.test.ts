import { describe, expect, it } from "vitest";
import { readCardText, readPastedCards } from "../../../../shared/record/card-text.ts";
import { markFor } from "../../../../shared/record/mark-keys.ts";

describe("markFor", () => {
  it("knows the signs, letters and words of English and Spanish", () => {
    for (const key of ["+", "1", "y", "Y", "yes", " Yes ", "sí", "SI", "s", "✓", "on"]) {
      expect(markFor(key), key).toBe("on");
    }
    for (const key of ["-", "−", "–", "0", "n", "No", "off", "✗"]) {
      expect(markFor(key), key).toBe("off");
    }
    for (const key of ["", " ", ".", "_"]) expect(markFor(key), key).toBe("none");
  });

  it("guesses nothing: a cross or a ring means yes on some cards and no on others", () => {
    for (const key of ["x", "X", "o", "q", "2", "yess", "++"]) expect(markFor(key), key).toBeNull();
  });
});

describe("readCardText", () => {
  it("reads one character a box", () => {
    expect(readCardText("++-.+", 10)).toEqual({
      boxes: ["on", "on", "off", "none", "on"],
      problems: [],
    });
  });

  it("reads words, with or without separators", () => {
    const three = { boxes: ["on", "off", "on"], problems: [] };
    expect(readCardText("yes no sí", 10)).toEqual(three);
    expect(readCardText("yes; no; on", 10)).toEqual(three);
    expect(readCardText("+\t-\t+", 10)).toEqual(three);
    expect(readCardText("yny", 10)).toEqual(three);
    expect(readCardText("yes", 10).boxes).toEqual(["on"]);
  });

  it("keeps the place of an empty cell and drops empty cells at the end", () => {
    expect(readCardText("+\t\t-\t\t", 10).boxes).toEqual(["on", "none", "off"]);
    expect(readCardText("", 10)).toEqual({ boxes: [], problems: [] });
  });

  it("names the box that is no mark and keeps the rest", () => {
    expect(readCardText("+-q+", 10)).toEqual({
      boxes: ["on", "off", "none", "on"],
      problems: [{ code: "box-bad-mark", row: 1, box: 3, text: "q" }],
    });
    expect(readCardText("yes\tmaybe\tno", 10).problems).toEqual([
      { code: "box-bad-mark", row: 1, box: 2, text: "maybe" },
    ]);
  });

  it("refuses filled boxes past the end of the card, one by one", () => {
    const read = readCardText("+++++", 3);
    expect(read.boxes).toEqual(["on", "on", "on"]);
    expect(read.problems.map(({ code, box }) => [code, box])).toEqual([
      ["box-too-many", 4],
      ["box-too-many", 5],
    ]);
    expect(readCardText("+\t+\t+\t\t", 3).problems).toEqual([]);
  });
});

describe("readPastedCards", () => {
  it("reads a block from a spreadsheet whatever its row ends", () => {
    for (const end of ["\n", "\r\n", "\r"]) {
      const cards = readPastedCards(`+\t-${end}\t${end}-\tz${end}`, 5);
      expect(cards.map(({ boxes }) => boxes)).toEqual([["on", "off"], [], ["off"]]);
      expect(cards.flatMap(({ problems }) => problems)).toEqual([
        { code: "box-bad-mark", row: 3, box: 2, text: "z" },
      ]);
    }
  });
});
