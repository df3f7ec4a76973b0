import { describe, expect, it } from "vitest";
import { dayNumber } from "../../../../shared/calendar/calendar.ts";
import { drawSchema } from "../../../../shared/phase/draw.ts";
import { drawDay, drawOf, keptDraw } from "../../../../shared/reading/drawn/drawn-start.ts";
import { readSteps } from "../../../../src/screens/progress/read-steps.ts";

const days = [7, 8, 9, 10, 11, 14, 15, 16, 17, 18].map(
  (date) => `2026-09-${String(date).padStart(2, "0")}`,
);
const draw = { from: "2026-09-07", to: "2026-09-18", seed: "kiwi", days, times: 1 };

describe("a drawn first day", () => {
  it("is the same for the same seed and days, and null without a day", () => {
    expect(days).toContain(drawDay(draw));
    expect(drawDay(draw)).toBe(drawDay({ ...draw }));
    expect(drawDay({ ...draw, days: [] })).toBeNull();
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
      permittedDays: days.map(dayNumber),
      day: dayNumber(day),
    });
    expect(drawOf(program("2026-09-21"))).toBeNull();
    expect(drawOf([{ kind: "intervention", startsOn: day, draw }])).toBeNull();
  });

  it("keeps the days it was drawn from and how often it was drawn", () => {
    const some = { ...draw, days: days.slice(3), times: 4 };
    const program = { kind: "intervention" as const, startsOn: drawDay(some) ?? "", draw: some };
    const phases = [{ kind: "baseline" as const, startsOn: "2026-09-01", draw: null }, program];
    expect(keptDraw(phases)).toEqual(some);
    expect(drawOf(phases)?.permittedDays).toEqual(days.slice(3).map(dayNumber));
  });

  it("stands in its span, each day once and in order", () => {
    expect(drawSchema.safeParse(draw).success).toBe(true);
    const bad = [
      { ...draw, days: [...days].reverse() },
      { ...draw, days: ["2026-09-07", "2026-09-07"] },
      { ...draw, days: ["2026-09-21"] },
      { ...draw, times: 0 },
      { ...draw, to: "2026-09-01", days: [] },
    ];
    for (const one of bad) expect(drawSchema.safeParse(one).success).toBe(false);
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
