import { describe, expect, it } from "vitest";
import {
  dayNumber,
  dayText,
  isoWeekOf,
  mondayOf,
  weekdayOf,
} from "../../../../shared/calendar/calendar.ts";

describe("days", () => {
  it("are those of the platform's own calendar, for four centuries and both ways", () => {
    for (let number = dayNumber("1890-01-01"); number < dayNumber("2290-01-01"); number += 1) {
      const date = new Date(number * 86_400_000);
      const text = date.toISOString().slice(0, 10);
      if (dayText(number) !== text || dayNumber(text) !== number) {
        throw new Error(
          `${text} is day ${dayNumber(text)}, and ${number} reads ${dayText(number)}`,
        );
      }
      expect(weekdayOf(number) % 7).toBe(date.getUTCDay());
    }
  });

  it.each(["2023-02-29", "1900-02-29", "2024-13-01", "2024-00-10", "2024-04-31", "2024-01-00"])(
    "refuses %s",
    (day) => {
      expect(() => dayNumber(day)).toThrow(/one in the calendar/);
    },
  );

  it.each(["2024-1-01", "", "2024/01/01", "24-01-01", "2024-01-01T00:00"])(
    "refuses to read %j",
    (day) => {
      expect(() => dayNumber(day)).toThrow(/YYYY-MM-DD/);
    },
  );
});

describe("weeks", () => {
  // The examples that ISO 8601 texts usually give for weeks at the turn of a year; common knowledge.
  it.each([
    ["2005-01-01", 2004, 53],
    ["2005-01-02", 2004, 53],
    ["2005-12-31", 2005, 52],
    ["2007-01-01", 2007, 1],
    ["2008-12-29", 2009, 1],
    ["2010-01-03", 2009, 53],
    ["2020-12-31", 2020, 53],
    ["2021-01-03", 2020, 53],
    ["2021-01-04", 2021, 1],
  ])("%s is in week %i-%i", (day, year, week) => {
    expect(isoWeekOf(dayNumber(day))).toEqual({ year, week });
  });

  it("run from Monday to Sunday", () => {
    for (const day of ["2024-09-02", "2024-09-05", "2024-09-08"]) {
      expect(dayText(mondayOf(dayNumber(day)))).toBe("2024-09-02");
    }
    expect(dayText(mondayOf(dayNumber("2024-09-09")))).toBe("2024-09-09");
  });
});
