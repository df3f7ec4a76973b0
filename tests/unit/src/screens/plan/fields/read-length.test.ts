import "../../../../../setup/property-seed.ts";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  namesItsUnit,
  readCount,
  readLength,
  writeLength,
} from "../../../../../../src/screens/plan/fields/read-length.ts";

describe("A length as a teacher types it", () => {
  it.each([
    ["90", "seconds", 90],
    [" 90 ", "seconds", 90],
    ["2", "minutes", 120],
    ["1.5", "minutes", 90],
    ["1,5", "minutes", 90],
    [".5", "minutes", 30],
    ["5.", "minutes", Number.NaN],
    ["1:30", "minutes", 90],
    ["1:30", "seconds", 90],
    ["90 s", "minutes", 90],
    ["90s", "minutes", 90],
    ["2 min.", "seconds", 120],
    ["2 minutos", "seconds", 120],
    ["1,5 h", "seconds", 5400],
    ["3 horas", "seconds", 10_800],
    ["0", "seconds", 0],
  ] as const)("reads %j in %s as %d seconds", (text, unit, seconds) => {
    expect(readLength(text, unit)).toBe(seconds);
  });

  // A number that may be a thousand or a fraction must not be guessed at.
  it.each([
    "",
    " ",
    "abc",
    "-5",
    "1.200",
    "1,200",
    "1.200,5",
    "1:75",
    "1:3",
    "2 weeks",
    "1e3",
    "5 5",
  ])("does not make a length of %j", (text) => {
    expect(readLength(text, "seconds")).toBeNaN();
  });

  it("says when the text brings its own unit", () => {
    expect(["1:30", "90 s", "2min"].map(namesItsUnit)).toEqual([true, true, true]);
    expect(["90", "1.5", "1,5", " 3 "].map(namesItsUnit)).toEqual([false, false, false, false]);
  });

  it("comes back as what it was, in either unit, for every whole second up to a day", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 86_400 }),
        fc.constantFrom("seconds" as const, "minutes" as const),
        (seconds, unit) => readLength(writeLength(seconds, unit), unit) === seconds,
      ),
    );
  });
});

describe("A count as a teacher types it", () => {
  it("is a whole number or nothing", () => {
    expect([" 5 ", "0", "12"].map(readCount)).toEqual([5, 0, 12]);
    for (const text of ["", "2.5", "-1", "five"]) expect(readCount(text)).toBeNaN();
  });
});
