import { expect, it } from "vitest";
import { exchangesADay } from "../../../../shared/points/exchanges-a-day.ts";
import { givenADay } from "../../../../shared/points/given-a-day.ts";

const hour = 3_600_000;
const at = (day: string, ...hours: readonly number[]) =>
  hours.map((each) => ({ day, wallMs: each * hour }));

it("a group's exchanges of a day are counted by the half hours between them, and taken at the median", () => {
  expect(exchangesADay([])).toBe(1);
  // Ten children within ten minutes are one exchange.
  const morning = Array.from({ length: 10 }, (_, each) => ({
    day: "2026-03-02",
    wallMs: each * 60_000,
  }));
  expect(exchangesADay(morning)).toBe(1);
  const days = [...at("2026-03-02", 9, 11, 14), ...at("2026-03-03", 9), ...at("2026-03-04", 14, 9)];
  expect(exchangesADay(days)).toBe(2);
});

it("given points are averaged over the newest ten days with points", () => {
  const days = Array.from(
    { length: 12 },
    (_, day) => `2026-03-${String(day + 1).padStart(2, "0")}`,
  );
  const given = [
    { studentId: "ada", day: "2026-03-01", amount: 50 },
    { studentId: "ada", day: "2026-03-05", amount: 5 },
    { studentId: "ada", day: "2026-03-05", amount: -2 },
    { studentId: "ben", day: "2026-03-12", amount: 4 },
  ];
  expect([...givenADay(given, days)]).toEqual([
    ["ada", 0.3],
    ["ben", 0.4],
  ]);
  expect(givenADay([], []).size).toBe(0);
});
