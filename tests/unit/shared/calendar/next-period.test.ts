import { describe, expect, it } from "vitest";
import { duePeriod, minutesOf, nextPeriod } from "../../../../shared/calendar/next-period.ts";

const period = (name: string, starts: string | null, ends: string | null = null) => ({
  name,
  starts,
  ends,
});
const day = [
  period("Sums", "13:00", "13:30"),
  period("Writing", "09:30", "10:00"),
  period("Reading", "11:00"),
  period("Some time", null),
];
const at = minutesOf;
const next = (now: string, ...held: string[]) => nextPeriod(day, at(now), held.map(at))?.name;
const due = (now: string, ...held: string[]) => duePeriod(day, at(now), held.map(at))?.name;

describe("The period that comes next", () => {
  it("is the first by the clock that is not over, whatever the order of the list", () => {
    expect(next("08:00")).toBe("Writing");
    expect(next("09:59")).toBe("Writing");
    expect(next("10:00")).toBe("Reading");
    // Without an end a period lasts until the next begins.
    expect(next("12:59")).toBe("Reading");
    expect(next("13:29")).toBe("Sums");
    expect(next("13:30")).toBeUndefined();
  });

  it("is no longer one whose session was begun, a little early or late", () => {
    expect(next("09:40", "09:20")).toBe("Reading");
    expect(next("09:40", "09:35")).toBe("Reading");
    expect(next("09:40", "08:30")).toBe("Writing");
    expect(next("09:40", "09:35", "11:05")).toBe("Sums");
  });

  it("is none without a timetable, or without times in it", () => {
    expect(nextPeriod([], at("09:00"), [])).toBeNull();
    expect(nextPeriod([period("Some time", null)], at("09:00"), [])).toBeNull();
  });
});

describe("The reminder of a period", () => {
  it("comes five minutes before and stays for fifteen, not beyond the end", () => {
    expect(due("09:24")).toBeUndefined();
    expect(due("09:25")).toBe("Writing");
    expect(due("09:44")).toBe("Writing");
    expect(due("09:45")).toBeUndefined();
    expect(duePeriod([period("Short", "09:00", "09:10")], at("09:11"), [])).toBeNull();
  });

  it("does not come when the session was begun", () => {
    expect(due("09:30", "09:26")).toBeUndefined();
    expect(due("10:58", "09:26")).toBe("Reading");
  });
});
