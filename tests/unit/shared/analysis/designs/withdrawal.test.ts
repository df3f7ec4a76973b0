import { describe, expect, it } from "vitest";
import { simulateRecord } from "../../../../../shared/analysis/calibration/simulate-record.ts";
import { withdrawalTest } from "../../../../../shared/analysis/designs/withdrawal-test.ts";
import { dayNumber, dayText } from "../../../../../shared/calendar/calendar.ts";
import type { Phase } from "../../../../../shared/phase/phase.ts";
import { drawDay } from "../../../../../shared/reading/drawn/drawn-start.ts";
import { drawWithdrawal } from "../../../../../shared/reading/drawn/drawn-withdrawal.ts";
import { readWithdrawal } from "../../../../../shared/reading/drawn/withdrawal-reading.ts";
import { randomStream } from "../../../../../shared/schedule/stream.ts";

const windows = [0, 1, 2].map((at) => [0, 1, 2, 3, 4].map((day) => 5 + 10 * at + day));
const changesOn = (days: readonly number[]) =>
  days.map((day, at) => ({ permittedDays: windows[at] ?? [], day }));

describe("the test of a drawn withdrawal", () => {
  it("gives one way of 125 where the rate follows the program at each change", () => {
    const days = [6, 18, 27];
    const points = Array.from({ length: 40 }, (_, day) => ({
      day,
      value: days.filter((change) => change <= day).length % 2 === 1 ? 0.8 : 0.4,
    }));
    const found = withdrawalTest(points, changesOn(days));
    expect(found).toMatchObject({ kind: "computed", ways: 125, changes: 3 });
    if (found.kind !== "computed") throw new Error();
    expect(found.probability).toBeCloseTo(1 / 125, 12);
    expect(found.difference).toBeCloseTo(0.4, 12);
  });

  it("is wrong for at most one of twenty steady students, whose neighbours are alike", () => {
    const draw = randomStream("withdrawal", "steady");
    const trials = 1_000;
    let shown = 0;
    for (let trial = 0; trial < trials; trial += 1) {
      const record = simulateRecord(
        { sessions: 40, cues: 10, rate: () => 0.6, r: 0.3, perWeek: 7 },
        draw,
      );
      const days = windows.map((window) => window[Math.floor(draw() * 5)] ?? 0);
      const points = record.map(({ on }, day) => ({ day, value: on / 10 }));
      const found = withdrawalTest(points, changesOn(days));
      if (found.kind === "computed" && found.probability <= 0.05) shown += 1;
    }
    expect(shown / trials).toBeLessThan(0.064);
    expect(shown / trials).toBeGreaterThan(0.03);
  });

  it("says why there is none", () => {
    const points = Array.from({ length: 40 }, (_, day) => ({ day, value: 0.5 }));
    expect(withdrawalTest(points, [])).toMatchObject({ reason: "nothing-drawn" });
    expect(withdrawalTest(points, changesOn([4, 18, 27]))).toMatchObject({
      reason: "start-not-permitted",
    });
    expect(withdrawalTest(points.slice(0, 26), changesOn([6, 18, 25]))).toMatchObject({
      reason: "start-leaves-phase-empty",
    });
  });
});

describe("a withdrawal that was drawn and kept", () => {
  const plan = {
    from: "2026-09-14",
    window: 5,
    seed: "abc",
    daysOff: [],
    weekdays: [1, 2, 3, 4, 5],
  };
  const draws = drawWithdrawal(plan);
  const first = { groupId: "g", studentId: "s1", label: "", probes: null };
  const phases: Phase[] = [
    { ...first, id: "a", kind: "baseline", startsOn: "2026-09-07", draw: null },
    ...draws.map(
      (draw, at): Phase => ({
        ...first,
        id: `${at}`,
        kind: at % 2 === 0 ? "intervention" : "baseline",
        startsOn: drawDay(draw) ?? "",
        draw: { ...draw, times: 1 },
      }),
    ),
  ];
  const sessions = Array.from({ length: 60 }, (_, at) => {
    const day = dayText(dayNumber("2026-09-07") + Math.floor(at / 5) * 7 + (at % 5));
    const changes = phases.slice(1).filter(({ startsOn }) => startsOn <= day).length;
    const on = changes % 2 === 1 ? 16 : 8;
    return {
      sessionId: `${at}`,
      startedAt: dayNumber(day) * 86_400_000,
      day,
      on,
      off: 20 - on,
      missing: 0,
      source: "self" as const,
    };
  });

  it("has a week for each change and a week between them", () => {
    expect(draws.map(({ from, to }) => [from, to])).toEqual([
      ["2026-09-14", "2026-09-18"],
      ["2026-09-28", "2026-10-02"],
      ["2026-10-12", "2026-10-16"],
    ]);
  });

  it("is read with its exact test, and not once a day was moved", () => {
    expect(readWithdrawal(phases, sessions)).toMatchObject({
      redrawn: false,
      test: { kind: "computed", probability: 1 / 125, changes: 3 },
    });
    const moved = phases.map((phase) =>
      phase.id === "1" ? { ...phase, startsOn: "2026-10-05" } : phase,
    );
    expect(readWithdrawal(moved, sessions)).toBeNull();
  });
});
