import { expect, it } from "vitest";
import { dayNumber } from "../../../../shared/calendar/calendar.ts";
import { dayTicks } from "../../../../src/charts/use-day-axis.ts";

const shown = (from: number, to: number, most = 8) =>
  dayTicks(from, to, most).map((date) => date.toISOString());

it.each([
  [1, 2],
  [2, 3],
  [7, 8],
  [40, 8],
  [180, 8],
])("a span of %d days is labelled at whole days, each once, with room between", (days, most) => {
  const from = dayNumber("2026-11-27") - 0.5;
  const ticks = shown(from, from + days, 8);
  expect(new Set(ticks).size).toBe(ticks.length);
  expect(ticks.every((tick) => tick.endsWith("T00:00:00.000Z"))).toBe(true);
  expect(ticks.length).toBeGreaterThan(0);
  expect(ticks.length).toBeLessThanOrEqual(most + 1);
});

it("one narrow day has one label", () => {
  const day = dayNumber("2026-11-27");
  expect(shown(day, day + 0.9)).toEqual(["2026-11-27T00:00:00.000Z"]);
});
