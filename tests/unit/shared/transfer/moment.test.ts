import { describe, expect, it } from "vitest";
import { momentText, parseMoment } from "../../../../shared/transfer/moment.ts";

// The JavaScript engine's own Date reads the same ISO 8601 texts and is the reference for the moment.
describe("a moment with its offset", () => {
  it.each([
    ["2026-03-02T09:15:00+01:00", "2026-03-02", 555, 60],
    ["2026-03-02T09:15:00Z", "2026-03-02", 555, 0],
    ["2026-03-02T09:15Z", "2026-03-02", 555, 0],
    ["2026-03-02T09:15:30.250-05:00", "2026-03-02", 555, -300],
    ["2026-12-31T23:59:59-11:30", "2026-12-31", 1439, -690],
    ["2024-02-29T00:00:00+14:00", "2024-02-29", 0, 840],
  ])("%s", (text, day, minuteOfDay, offsetMinutes) => {
    expect(parseMoment(text)).toEqual({ ms: Date.parse(text), day, minuteOfDay, offsetMinutes });
  });

  it("takes an offset without a colon", () => {
    expect(parseMoment("2026-03-02T09:15:00+0100")).toEqual(
      parseMoment("2026-03-02T09:15:00+01:00"),
    );
  });
});

describe("anything else is no moment", () => {
  it.each([
    "2026-03-02T09:15:00",
    "2026-03-02",
    "2026-03-02 09:15:00Z",
    "2026-02-29T09:15:00Z",
    "2026-13-01T09:15:00Z",
    "2026-03-02T24:00:00Z",
    "2026-03-02T09:60:00Z",
    "2026-03-02T09:15:60Z",
    "2026-03-02T09:15:00+15:00",
    "2026-03-02T09:15:00+01:75",
    "02.03.2026 09:15",
    "",
  ])("%j", (text) => {
    expect(parseMoment(text)).toBeUndefined();
  });
});

describe("a moment written out", () => {
  it.each([
    ["2026-03-02T09:15:00+01:00"],
    ["2026-03-02T09:15:30.250-05:00"],
    ["2026-12-31T23:59:59-11:30"],
    ["2024-02-29T00:00:00+14:00"],
    ["1999-12-31T23:30:00+00:00"],
  ])("%s is written as it was read", (text) => {
    const moment = parseMoment(text);
    if (moment === undefined) throw new Error("Not read");
    expect(momentText(moment.ms, moment.offsetMinutes)).toBe(text);
  });
});
