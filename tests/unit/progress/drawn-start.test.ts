import { describe, expect, it } from "vitest";
import { dayNumber, dayText } from "../../../shared/analysis/calendar.ts";
import { drawDay, drawOf, permittedDays } from "../../../src/screens/progress/drawn-start.ts";
import { readSteps } from "../../../src/screens/progress/read-steps.ts";

const draw = { from: "2026-09-07", to: "2026-09-18", seed: "kiwi" };

describe("a drawn first day", () => {
  it("comes from the school days of the span alone", () => {
    expect(permittedDays(draw).map(dayText)).toEqual([
      "2026-09-07",
      "2026-09-08",
      "2026-09-09",
      "2026-09-10",
      "2026-09-11",
      "2026-09-14",
      "2026-09-15",
      "2026-09-16",
      "2026-09-17",
      "2026-09-18",
    ]);
  });

  it("is the same for the same seed, and null without a school day", () => {
    expect(drawDay(draw)).toBe(drawDay({ ...draw }));
    expect(drawDay({ ...draw, from: "2026-09-12", to: "2026-09-13" })).toBeNull();
    expect(drawDay({ ...draw, from: "2026-09-18", to: "2026-09-07" })).toBeNull();
  });

  it("is each permitted day about equally often", () => {
    const seen = new Map<string, number>();
    for (let at = 0; at < 2_000; at += 1) {
      const day = drawDay({ ...draw, seed: `s${at}` }) ?? "";
      seen.set(day, (seen.get(day) ?? 0) + 1);
    }
    const chi = [...seen.values()].reduce((sum, count) => sum + (count - 200) ** 2 / 200, 0);
    // Chi-squared, 9 degrees of freedom, upper .001: 27.877 (NIST/SEMATECH e-Handbook, 1.3.6.7.4).
    expect(seen.size).toBe(10);
    expect(chi).toBeLessThan(27.877);
  });

  it("allows the randomization test only on the day that was drawn", () => {
    const program = (startsOn: string) => [
      { kind: "baseline" as const, startsOn: "2026-09-01", draw: null },
      { kind: "intervention" as const, startsOn, draw },
    ];
    const day = drawDay(draw) ?? "";
    expect(drawOf(program(day))).toEqual({
      permittedDays: permittedDays(draw),
      day: dayNumber(day),
    });
    expect(drawOf(program("2026-09-21"))).toBeNull();
    expect(drawOf([{ kind: "intervention", startsOn: day, draw }])).toBeNull();
  });
});

describe("cue steps as a teacher types them", () => {
  it("are minutes in either way of writing decimals", () => {
    expect(readSteps("2 4 8")).toEqual([120, 240, 480]);
    expect(readSteps("1,5; 3")).toEqual([90, 180]);
    expect(readSteps(" 0.5 ")).toEqual([30]);
  });

  it("are refused when one is no length, or not thinner than the one before it", () => {
    for (const text of [
      "",
      "two",
      "4 2",
      "2 2",
      "0",
      "181",
      "-1",
      "1 2 3 4 5 6 7 8 9 10 11 12 13",
    ]) {
      expect(readSteps(text), text).toBeNull();
    }
  });
});
