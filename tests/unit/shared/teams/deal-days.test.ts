import { expect, it } from "vitest";
import { dealDays } from "../../../../shared/teams/deal-days.ts";

const week = { weekday: 1, weekdays: [1, 2, 3, 4, 5], daysOff: [], heldFrom: null };

// Days of the week by the calendar of 2026: 23 November is a Monday, 28 November a Saturday.
it("the first round of a term has begun with this week, on a Saturday with the next", () => {
  expect(dealDays({ ...week, today: "2026-11-25", rounds: 2 })).toEqual([
    "2026-11-23",
    "2026-11-30",
  ]);
  expect(dealDays({ ...week, today: "2026-11-28", rounds: 1 })).toEqual(["2026-11-30"]);
});

it("while a round is held the next begins with the next chosen weekday", () => {
  const asked = { ...week, weekday: 3, today: "2026-11-25", heldFrom: "2026-11-25", rounds: 2 };
  expect(dealDays(asked)).toEqual(["2026-12-02", "2026-12-09"]);
  expect(dealDays({ ...asked, today: "2026-12-01" })[0]).toBe("2026-12-02");
});

it("weeks without school are passed over", () => {
  const daysOff = [{ firstDay: "2026-12-21", lastDay: "2027-01-03" }];
  expect(dealDays({ ...week, daysOff, today: "2026-12-14", rounds: 3 })).toEqual([
    "2026-12-14",
    "2027-01-04",
    "2027-01-11",
  ]);
});

it("a school that is closed for years is refused", () => {
  const daysOff = [{ firstDay: "2026-01-01", lastDay: "2036-01-01" }];
  expect(() => dealDays({ ...week, daysOff, today: "2026-12-14", rounds: 1 })).toThrow(
    "weekdays must hold a day of school",
  );
});
