import "../../../setup/property-seed.ts";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mostObserved, observedAt } from "../../../../shared/session/observation-rotation.ts";

const roster = (count: number) => Array.from({ length: count }, (_, index) => `student ${index}`);
const turns = (cues: number, students: readonly string[], seed: string) =>
  Array.from({ length: cues }, (_, index) => observedAt(index + 1, students, seed));

describe("whom an observer looks at", () => {
  it("follows the list, one student a cue, from a drawn beginning", () => {
    const students = roster(4);
    const seen = turns(8, students, "pebble");
    const first = students.indexOf(seen[0] ?? "");
    expect(seen).toEqual(
      Array.from({ length: 8 }, (_, index) => students[(first + index) % students.length]),
    );
  });

  it("observes everybody equally often, to within one cue, whatever the length", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: mostObserved }),
        fc.integer({ min: 1, max: 200 }),
        fc.string({ minLength: 1, maxLength: 20 }),
        (count, cues, seed) => {
          const students = roster(count);
          const seen = turns(cues, students, seed);
          const often = students.map((id) => seen.filter((observed) => observed === id).length);
          expect(Math.max(...often) - Math.min(...often)).toBeLessThanOrEqual(1);
        },
      ),
    );
  });

  it("lets everybody begin about equally often over many seeds", () => {
    const students = roster(6);
    const firsts = Array.from({ length: 3_000 }, (_, index) =>
      observedAt(1, students, `seed ${index}`),
    );
    const expected = firsts.length / students.length;
    const chiSquare = students
      .map((id) => firsts.filter((first) => first === id).length)
      .reduce((sum, often) => sum + (often - expected) ** 2 / expected, 0);
    // Critical value of chi-square with 5 degrees of freedom at .001: 20.515 (NIST/SEMATECH e-Handbook, 1.3.6.7.4).
    expect(chiSquare).toBeLessThan(20.515);
  });

  it("does not hang on the order in which the students are named", () => {
    const students = roster(5);
    expect(turns(20, students.toReversed(), "seats")).toEqual(turns(20, students, "seats"));
  });

  it("is the same for the same seed", () => {
    expect(turns(20, roster(5), "again")).toEqual(turns(20, roster(5), "again"));
  });

  it("refuses what cannot be observed", () => {
    expect(() => observedAt(0, roster(2), "s")).toThrow(RangeError);
    expect(() => observedAt(1.5, roster(2), "s")).toThrow(RangeError);
    expect(() => observedAt(1, [], "s")).toThrow(RangeError);
    expect(() => observedAt(1, roster(mostObserved + 1), "s")).toThrow(RangeError);
    expect(() => observedAt(1, ["a", "a"], "s")).toThrow(RangeError);
  });
});
