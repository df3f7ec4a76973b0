import { describe, expect, it } from "vitest";
import { trendAcrossSessions } from "../../../shared/analysis/trend.ts";
import { weekAgainstWeek, weekRates, weeksOf } from "../../../shared/analysis/weeks.ts";
import { dayNumber, dayText } from "../../../shared/calendar/calendar.ts";
import type { SessionCount } from "../../../shared/record/session-count.ts";
import { randomStream } from "../../../shared/schedule/stream.ts";

// What the intervals promise, checked on simulated students whose true rate is known. Sessions have
// good and bad days: each draws its own rate around the student's, which independent marks would not.

const draw = randomStream("coverage", "marks");

/** So many sessions a week of ten cues; the session's own rate is spread evenly around `rate`. */
function simulate(
  weeks: number,
  rate: number,
  spread: number,
  { rise = 0, each = 5 } = {},
): SessionCount[] {
  return Array.from({ length: weeks * each }, (_, at) => {
    const day = dayNumber("2024-09-02") + Math.floor(at / each) * 7 + (at % each);
    const own = rate + (rise * at) / (weeks * each) + spread * (2 * draw() - 1);
    const on = Array.from({ length: 10 }, draw).filter((u) => u < own).length;
    return {
      sessionId: `s${at}`,
      startedAt: day * 86_400_000,
      day: dayText(day),
      on,
      off: 10 - on,
      missing: 0,
      source: "self",
    };
  });
}

/** Share of the trials in which something happens. */
const share = (trials: number, happens: () => boolean): number =>
  Array.from({ length: trials }, happens).filter(Boolean).length / trials;

describe.each([
  { rate: 0.7, spread: 0 },
  { rate: 0.7, spread: 0.25 },
  { rate: 0.5, spread: 0.4 },
  { rate: 0.85, spread: 0.12 },
])("a steady student at $rate, sessions spread by $spread", ({ rate, spread }) => {
  it("is inside the week's 95 % interval about 95 times in 100", () => {
    let inside = 0;
    let all = 0;
    for (let trial = 0; trial < 300; trial += 1) {
      for (const { pooled } of weekRates(weeksOf(simulate(6, rate, spread)))) {
        if (pooled.kind === "not-enough") continue;
        all += 1;
        if (pooled.interval.lower <= rate && rate <= pooled.interval.upper) inside += 1;
      }
    }
    expect(inside / all).toBeGreaterThan(0.925);
    expect(inside / all).toBeLessThan(0.99);
  });

  it("is seldom said to have clearly changed since last week, or to have a clear trend", () => {
    const falseChange = share(600, () => {
      const found = weekAgainstWeek(weeksOf(simulate(6, rate, spread)));
      return found.kind === "enough" && found.evidence === "clear";
    });
    const falseTrend = share(600, () => {
      const found = trendAcrossSessions(simulate(6, rate, spread));
      return found.kind === "enough" && found.evidence === "clear";
    });
    expect(falseChange).toBeLessThan(0.075);
    expect(falseTrend).toBeLessThan(0.075);
    // Far below .05 would mean that real trends are missed for no gain in honesty.
    expect(falseTrend).toBeGreaterThan(0.015);
  });
});

describe.each([
  { each: 1, weeks: 5 },
  { each: 1, weeks: 12 },
  { each: 2, weeks: 3 },
  { each: 3, weeks: 2 },
])("a steady student with $each sessions in each of $weeks weeks", ({ each, weeks }) => {
  it("is seldom said to have clearly changed since last week, however few sessions tell", () => {
    const falseChange = share(2_000, () => {
      const found = weekAgainstWeek(weeksOf(simulate(weeks, 0.6, 0.25, { each })));
      return found.kind === "enough" && found.evidence === "clear";
    });
    expect(falseChange).toBeLessThan(0.055);
  });
});

describe("a student who rises 30 points in six weeks", () => {
  it("is mostly seen clearly to rise, and hardly ever to fall", () => {
    const readings = Array.from({ length: 400 }, () =>
      trendAcrossSessions(simulate(6, 0.6, 0.1, { rise: 0.3 })),
    ).map((found) => (found.kind === "enough" ? `${found.evidence} ${found.direction}` : ""));
    const times = (reading: string) => readings.filter((found) => found === reading).length / 400;
    expect(times("clear up")).toBeGreaterThan(0.75);
    expect(times("clear down") + times("probable down")).toBe(0);
  });
});
