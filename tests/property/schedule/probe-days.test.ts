import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dayNumber, dayText, weekdayOf } from "../../../shared/calendar/calendar.ts";
import { type SchoolSpan, schoolDays } from "../../../shared/calendar/school-days.ts";
import { type ProbeRate, probeDays } from "../../../shared/schedule/probe-days.ts";

const anyDay = fc.integer({ min: 20_000, max: 22_000 });
const anySpan: fc.Arbitrary<SchoolSpan> = fc
  .record({
    first: anyDay,
    length: fc.integer({ min: 0, max: 250 }),
    off: fc.array(fc.record({ after: fc.integer({ min: -5, max: 255 }), days: fc.nat(20) }), {
      maxLength: 5,
    }),
    weekdays: fc.uniqueArray(fc.integer({ min: 1, max: 7 }), { minLength: 1 }),
  })
  .map(({ first, length, off, weekdays }) => ({
    from: dayText(first),
    to: dayText(first + length),
    daysOff: off.map(({ after, days }) => ({
      firstDay: dayText(first + after),
      lastDay: dayText(first + after + days),
    })),
    weekdays,
  }));
const anyRate: fc.Arbitrary<ProbeRate> = fc.oneof(
  fc.record({ count: fc.integer({ min: 1, max: 60 }) }),
  fc.record({ everySchoolDays: fc.double({ min: 1, max: 60, noNaN: true }) }),
);
const anySeed = fc.stringMatching(/^[a-z0-9]{1,12}$/);

/** Told once more from its definition, day by day and without the code under test. */
function isSchoolDay(day: string, { from, to, daysOff, weekdays }: SchoolSpan): boolean {
  const at = dayNumber(day);
  const isWithin = dayNumber(from) <= at && at <= dayNumber(to);
  const isOff = daysOff.some(
    ({ firstDay, lastDay }) => dayNumber(firstDay) <= at && at <= dayNumber(lastDay),
  );
  return isWithin && !isOff && weekdays.includes(weekdayOf(at));
}

describe("days drawn for probes", () => {
  it("are school days of the span, in order, each once, and as many as asked or as there are", () => {
    fc.assert(
      fc.property(anySeed, anySpan, anyRate, (seed, span, rate) => {
        const days = probeDays(seed, span, rate);
        const possible = schoolDays(span).length;
        expect(days.every((day) => isSchoolDay(day, span))).toBe(true);
        expect(days).toEqual([...new Set(days)].sort());
        const wanted =
          "count" in rate ? rate.count : Math.max(1, Math.round(possible / rate.everySchoolDays));
        expect(days).toHaveLength(Math.min(possible, wanted));
      }),
    );
  });

  it("are the same for the same seed", () => {
    fc.assert(
      fc.property(anySeed, anySpan, anyRate, (seed, span, rate) => {
        expect(probeDays(seed, span, rate)).toEqual(probeDays(seed, { ...span }, { ...rate }));
      }),
    );
  });

  it("lie one in each stretch, so that no two stretches of school days pass without one", () => {
    fc.assert(
      fc.property(anySeed, anySpan, fc.integer({ min: 1, max: 30 }), (seed, span, count) => {
        const all = schoolDays(span);
        fc.pre(all.length > 0);
        const places = probeDays(seed, span, { count }).map((day) => all.indexOf(day));
        const stretch = Math.ceil(all.length / Math.min(count, all.length));
        const gaps = places.slice(1).map((place, at) => place - (places[at] ?? 0));
        expect(Math.max(0, ...gaps)).toBeLessThan(2 * stretch);
      }),
    );
  });

  it("are each school day about equally often, over many seeds", () => {
    const span = { from: "2026-09-07", to: "2026-09-18", daysOff: [], weekdays: [1, 2, 3, 4, 5] };
    const seen = new Map<string, number>();
    for (let at = 0; at < 2_000; at += 1) {
      for (const day of probeDays(`s${at}`, span, { count: 2 })) {
        seen.set(day, (seen.get(day) ?? 0) + 1);
      }
    }
    const chi = [...seen.values()].reduce((sum, count) => sum + (count - 400) ** 2 / 400, 0);
    // Two stretches of five days: 2 x 4 degrees of freedom, upper .001: 26.124 (NIST/SEMATECH
    // e-Handbook, 1.3.6.7.4).
    expect(seen.size).toBe(10);
    expect(chi).toBeLessThan(26.124);
  });

  it("are refused below one probe, or more often than once a school day", () => {
    const span = { from: "2026-09-07", to: "2026-09-18", daysOff: [], weekdays: [1] };
    for (const rate of [{ count: 0 }, { count: 1.5 }, { everySchoolDays: 0.5 }]) {
      expect(() => probeDays("kiwi", span, rate)).toThrow(RangeError);
    }
  });
});
