import { describe, expect, it } from "vitest";
import { phaseSummary } from "../../../../../shared/analysis/phases/phase-summary.ts";
import { wantedOf } from "../../../../../shared/analysis/phases/wanted.ts";
import { readClass } from "../../../../../shared/analysis/statements/class-reading.ts";
import { classTrend } from "../../../../../shared/analysis/statements/class-trend.ts";
import { phaseStatement } from "../../../../../shared/analysis/statements/phase-statement.ts";
import { rateStatement } from "../../../../../shared/analysis/statements/rate-statement.ts";
import {
  readPhases,
  readPresent,
} from "../../../../../shared/analysis/statements/record-reading.ts";
import { trendStatement } from "../../../../../shared/analysis/statements/trend-statement.ts";
import {
  weekRateStatements,
  weekStatement,
} from "../../../../../shared/analysis/statements/week-statement.ts";
import { addOverStudents } from "../../../../../shared/analysis/summary.ts";
import { trendAcrossSessions } from "../../../../../shared/analysis/trend.ts";
import { dayNumber, dayText } from "../../../../../shared/calendar/calendar.ts";
import type { PhaseKind } from "../../../../../shared/phase/phase.ts";
import type { SessionCount } from "../../../../../shared/record/session-count.ts";

/** Sessions on school days, five a week from Monday 2 September 2024 on. */
function sessions(on: readonly number[], cues: number, firstAt = 0): SessionCount[] {
  return on.map((count, at) => {
    const place = firstAt + at;
    const day = dayNumber("2024-09-02") + Math.floor(place / 5) * 7 + (place % 5);
    return {
      sessionId: `s${place}`,
      startedAt: day * 86_400_000,
      day: dayText(day),
      on: count,
      off: cues - count,
      missing: 0,
      source: "self",
    };
  });
}

const phase = (kind: PhaseKind, held: readonly SessionCount[], label: string = kind) => ({
  kind,
  label,
  sessions: held,
});

const widthOf = ({ interval }: { readonly interval: { lower: number; upper: number } }) =>
  interval.upper - interval.lower;

function enough<T extends { readonly kind: string }>(found: T) {
  if (found.kind !== "enough") throw new Error(JSON.stringify(found));
  return found as Extract<T, { readonly kind: "enough" }>;
}

describe("tied rates of few cues", () => {
  // Forty sessions of five cues: 84 of 100 on task, then 94 of 100. Nearly all pairs of sessions tie.
  const tied = sessions(
    [4, 4, 5, 4, 4, 4, 5, 4, 4, 4, 4, 5, 4, 4, 4, 4, 4, 5, 4, 4].concat([
      5, 5, 4, 5, 5, 5, 5, 4, 5, 5, 5, 4, 5, 5, 5, 4, 5, 5, 4, 4,
    ]),
    5,
  );

  it("have a slope and an interval, where the median slope is 0 with an interval of 0 to 0", () => {
    const median = enough(trendAcrossSessions(tied));
    expect(median.intervalPointsPerWeek).toEqual({ lower: 0, upper: 0 });
    const found = enough(trendStatement(tied));
    expect(found.pointsPerWeek).toBeGreaterThan(0.5);
    expect(widthOf(found)).toBeGreaterThan(1);
  });

  it.each([0, 3, 5])("all alike at %i of 5 still leave every interval a width", (on) => {
    const alike = sessions(
      Array.from({ length: 20 }, () => on),
      5,
    );
    const trend = enough(trendStatement(alike));
    expect(trend).toMatchObject({ pointsPerWeek: 0, direction: "level", evidence: "cannot-tell" });
    const week = enough(weekStatement(alike));
    const change = enough(phaseStatement(alike.slice(0, 10), alike.slice(10), "up"));
    const overall = enough(rateStatement([alike]));
    for (const stated of [trend, week, change]) expect(widthOf(stated)).toBeGreaterThan(0.5);
    expect(widthOf(overall)).toBeGreaterThan(0.01);
    for (const rate of weekRateStatements(alike)) expect(widthOf(rate)).toBeGreaterThan(0.01);
  });
});

describe("a class", () => {
  const steady = (on: number, length: number, firstAt = 0) =>
    sessions(
      Array.from({ length }, (_, at) => on + (at % 2 === 0 ? 1 : -1)),
      20,
      firstAt,
    );

  // Five steady at 85 %, joined half-way by five steady at 45 %; nobody changes.
  const joined = [
    ...Array.from({ length: 5 }, () => steady(17, 20)),
    ...Array.from({ length: 5 }, () => steady(9, 10, 10)),
  ];

  it("is level when others join a steady one, though all marks together fall", () => {
    const together = addOverStudents(
      joined.map((held, at) => ({ studentId: String(at), sessions: held })),
    );
    expect(enough(trendAcrossSessions(together))).toMatchObject({
      direction: "down",
      evidence: "clear",
    });
    const found = enough(classTrend(joined));
    expect(Math.abs(found.pointsPerWeek)).toBeLessThan(1);
    expect(found.evidence).toBe("cannot-tell");
    expect(found.presence).toEqual({ throughout: 5, laterOnly: 5, earlierOnly: 0 });
  });

  it("has no week change when others join on Monday, and says how many did", () => {
    const members = joined.map((held) => ({ sessions: held.slice(0, 15), phases: [] }));
    const together = addOverStudents(
      members.map((member, at) => ({ studentId: String(at), sessions: member.sessions })),
    ).filter(({ day }) => day <= "2024-09-22");
    const until = members.map(({ sessions: held }) => ({
      phases: [],
      sessions: held.filter(({ day }) => day <= "2024-09-22"),
    }));
    const week = enough(readClass(until, [], together, null).week);
    expect(week).toMatchObject({ students: 5, laterOnly: 5, earlierOnly: 0 });
    expect(week.evidence).toBe("cannot-tell");
  });

  it("that rises is seen to rise, whoever joins", () => {
    const rising = (start: number, length: number, firstAt = 0) =>
      sessions(
        Array.from({ length }, (_, at) => Math.round(start + (firstAt + at) * 0.25)),
        20,
        firstAt,
      );
    const found = enough(
      classTrend([
        ...Array.from({ length: 5 }, () => rising(12, 20)),
        ...Array.from({ length: 5 }, () => rising(2, 10, 10)),
      ]),
    );
    // A quarter of a mark of twenty a session, five sessions a week.
    expect(found.pointsPerWeek).toBeCloseTo(6.25, 0);
    expect(found).toMatchObject({ direction: "up", evidence: "clear" });
  });

  it("compares each student's own phases where starts are staggered", () => {
    const student = (length: number, start: number) => {
      const held = sessions(
        Array.from({ length }, (_, at) => (at < start ? 8 : 15) + (at % 2)),
        20,
      );
      return {
        sessions: held,
        phases: [phase("baseline", held.slice(0, start)), phase("intervention", held.slice(start))],
      };
    };
    const members = [5, 5, 5, 10].map((start) => student(20, start));
    const together = addOverStudents(
      members.map((member, at) => ({ studentId: String(at), sessions: member.sessions })),
    );
    const shared = [
      phase("baseline", together.slice(0, 5)),
      phase("intervention", together.slice(5)),
    ];
    const [change] = readClass(members, shared, together, null).phases;
    expect(change).toMatchObject({ kind: "enough", students: 4, outcome: "as-wanted" });
    expect(change?.kind === "enough" ? change.points : 0).toBeCloseTo(35, 0);
  });
});

describe("phases", () => {
  const low = [8, 9, 7, 8, 8, 9, 7, 8];
  const high = [16, 15, 17, 16, 16, 15, 17, 16];

  it("are judged by what is wanted of them: a reversal that falls does as it should", () => {
    const held = sessions([...low, ...high, ...low, ...high], 20);
    const kinds: PhaseKind[] = ["baseline", "intervention", "baseline", "intervention"];
    const found = readPhases(kinds.map((kind, at) => phase(kind, held.slice(8 * at, 8 * at + 8))));
    expect(found).toMatchObject([
      { wanted: "up", direction: "up", evidence: "clear", outcome: "as-wanted" },
      { wanted: "down", direction: "down", evidence: "clear", outcome: "as-wanted" },
      { wanted: "up", direction: "up", evidence: "clear", outcome: "as-wanted" },
    ]);
  });

  it("show a reversal by lines that are lowered, and by sessions below the lowest", () => {
    const series = (kind: PhaseKind, on: readonly number[], firstDay: number) => ({
      kind,
      label: kind,
      source: "self" as const,
      points: on.map((count, at) => ({ day: firstDay + at, value: count / 20 })),
    });
    const { comparisons } = phaseSummary([
      series("baseline", low, 1),
      series("intervention", high, 20),
      series("baseline", low, 40),
    ]);
    expect(comparisons[0]).toMatchObject({ wanted: "up", downward: null });
    // All eight sessions lie below both lines of the program; upward nothing is shown.
    expect(comparisons[1]).toMatchObject({
      wanted: "down",
      pnd: { value: 0 },
      dualCriterion: { conservative: { decision: "no-change-shown" } },
      downward: {
        pnd: { value: 1 },
        dualCriterion: { conservative: { above: 8, decision: "change-shown" } },
      },
    });
    const lines = comparisons[1]?.downward?.dualCriterion;
    if (lines?.kind !== "computed") throw new Error("no lines");
    expect(lines.conservative.level).toBeLessThan(lines.dual.level);
    expect(lines.dual.level).toBeCloseTo(0.8, 10);
  });

  it("that should hold have held within ten points, have not, or cannot tell", () => {
    const outcome = (from: readonly number[], to: readonly number[]) =>
      enough(phaseStatement(sessions(from, 20), sessions(to, 20, from.length), "held")).outcome;
    const long = [...high, ...high, ...high];
    expect(outcome(long, long)).toBe("as-wanted");
    expect(outcome(high, low)).toBe("against");
    expect(outcome([16, 12, 18, 14], [14, 16, 11, 17])).toBe("cannot-tell");
    // A rise has held too.
    expect(outcome(low, high)).toBe("as-wanted");
  });

  it("know what is wanted when one follows another", () => {
    expect(wantedOf("baseline", "intervention")).toBe("up");
    expect(wantedOf("intervention", "baseline")).toBe("down");
    expect(wantedOf("intervention", "fading")).toBe("held");
    expect(wantedOf("fading", "maintenance")).toBe("held");
    expect(wantedOf("fading", "intervention")).toBe("up");
  });

  it("need three sessions each", () => {
    const found = phaseStatement(sessions([5, 6], 10), sessions([7, 8, 9], 10, 2), "up");
    expect(found).toEqual({ kind: "not-enough", reason: "few-sessions", have: 2, need: 3 });
  });
});

describe("a program that begins on a Wednesday", () => {
  // Two baseline days at 40 % in the week of the start; the program runs at 80 %.
  const held = sessions([8, 8, 8, 8, 8, 8, 8, 16, 16, 16, 16, 16, 16, 16, 16], 20);
  const span = { kind: "intervention", label: "program", startsOn: "2024-09-11" } as const;

  it("compares its own part of that week with the next", () => {
    const { week, trend } = readPresent(span, held);
    expect(enough(week)).toMatchObject({
      points: 0,
      evidence: "cannot-tell",
      before: "2024-09-09",
      sessions: [5, 3],
    });
    // No line runs across the jump.
    expect(enough(trend).pointsPerWeek).toBeCloseTo(0, 10);
  });

  it("says what is missing while it has one week only", () => {
    const first = readPresent(span, held.slice(0, 10));
    expect(first.week).toMatchObject({ kind: "not-enough" });
  });
});
