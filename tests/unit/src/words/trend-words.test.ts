import { describe, expect, it } from "vitest";
import { trendStatement } from "../../../../shared/analysis/statements/trend-statement.ts";
import { dayNumber, dayText } from "../../../../shared/calendar/calendar.ts";
import type { SessionCount } from "../../../../shared/record/session-count.ts";
import { wordTrend as wordInOne } from "../../../../src/words/trend-word.ts";
import { type Voice, wordTrend, wordWeekChange } from "../../../../src/words/words.ts";

/** Sessions of twenty marks on days after a Monday, with so many on task. */
const sessions = (held: readonly (readonly [day: number, on: number])[]): SessionCount[] =>
  held.map(([after, on], at) => {
    const day = dayNumber("2026-01-05") + after;
    return {
      sessionId: `s${at}`,
      startedAt: day * 86_400_000,
      day: dayText(day),
      on,
      off: 20 - on,
      missing: 0,
      source: "self",
    };
  });

/** Says which message it is, with its values. Of the formats, sentences on trends ask for numbers only. */
const voice: Voice = {
  say: (id, values) => `${id} ${JSON.stringify(values)}`,
  formats: { number: (value: number) => String(Math.round(value)) } as Voice["formats"],
};

describe("the sentence on two weeks", () => {
  it("calls a difference that rounds to nothing no change, however sure it is", () => {
    const sentence = wordWeekChange(
      { ...voice, formats: { ...voice.formats, shortDay: (day: string) => day } },
      {
        kind: "enough",
        week: "2026-01-12",
        before: "2026-01-05",
        weeksApart: 1,
        points: 0.4,
        interval: { lower: 0.1, upper: 0.7 },
        direction: "up",
        evidence: "clear",
      },
      "2026-01-14",
    );
    expect(sentence).toMatch(/^progress\.week\.cannot-tell .*"direction":"level","points":0/);
  });
});

/** A rate that has stayed where it was over five school years of sessions. */
const steady = sessions(Array.from({ length: 900 }, (_, at) => [2 * at, 13 + (at % 3)] as const));

describe("the sentence on a trend", () => {
  it("says of years of sessions how little the rate may have changed, never that it fits 0.0 to 0.0", () => {
    const trend = trendStatement(steady);
    expect(trend).toMatchObject({ kind: "enough", evidence: "cannot-tell" });
    const number: Voice["formats"]["number"] = (value, digits = 0) => value.toFixed(digits);
    const sentence = wordTrend({ ...voice, formats: { ...voice.formats, number } }, trend);
    const { low, high } = JSON.parse(sentence.slice(sentence.indexOf("{")));
    expect([low, high]).not.toContain("0.0");
    // So much data is an answer: steady, and not that it cannot be told.
    expect(sentence).toMatch(/^progress\.trend\.steady /);
    expect(wordInOne(voice, trend)).toMatch(/^class\.trend\.steady /);
    expect(low).toMatch(/^−0\.0\d/);
    expect(high).toMatch(/^\+0\.0\d/);
  });

  const week = [2, 6, 10, 13, 19].map((on, day) => [day, on] as const);

  it("names no rise a week from a single week, and counts its days from first to last", () => {
    const trend = trendStatement(sessions(week));
    expect(trend).toMatchObject({ kind: "enough", evidence: "clear", direction: "up" });
    // More than any rate can rise.
    if (trend.kind === "enough") expect(trend.pointsPerWeek).toBeGreaterThan(100);
    expect(wordTrend(voice, trend)).toBe(
      'trend.short {"sure":"yes","direction":"up","sessions":5,"days":5}',
    );
  });

  it("names it once the sessions reach over two weeks", () => {
    const spread = week.map(([day, on]) => [day * 4, on] as const);
    expect(wordTrend(voice, trendStatement(sessions(spread)))).toMatch(/^progress\.trend\.clear /);
  });

  it("says that a few days fit anything when nothing can be told", () => {
    const wavering = [10, 14, 9, 13, 11].map((on, day) => [day, on] as const);
    const trend = trendStatement(sessions(wavering));
    expect(trend).toMatchObject({ evidence: "cannot-tell" });
    expect(wordTrend(voice, trend)).toBe('trend.anything {"sessions":5,"days":5}');
  });
});
