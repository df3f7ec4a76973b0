import { describe, expect, it } from "vitest";
import { dayNumber, dayText } from "../../../../shared/calendar/calendar.ts";
import type { Phase } from "../../../../shared/phase/phase.ts";
import { drawStagger } from "../../../../shared/reading/drawn/drawn-stagger.ts";
import { drawDay } from "../../../../shared/reading/drawn/drawn-start.ts";
import { readGroup } from "../../../../shared/reading/group-reading.ts";
import { groupCounts, type Marks, session } from "./builders.ts";

const plan = {
  studentIds: ["s1", "s2", "s3"],
  from: "2026-09-14",
  window: 5,
  seed: "abc",
  daysOff: [],
  weekdays: [1, 2, 3, 4, 5],
};

describe("staggered starts", () => {
  it("are drawn each within a week of its own, one week after the other", () => {
    const starts = drawStagger(plan);
    expect(starts.map(({ studentId }) => studentId).toSorted()).toEqual(plan.studentIds);
    expect(starts.map(({ draw }) => [draw.from, draw.to])).toEqual([
      ["2026-09-14", "2026-09-18"],
      ["2026-09-21", "2026-09-25"],
      ["2026-09-28", "2026-10-02"],
    ]);
    for (const { draw } of starts) expect(draw.days).toContain(drawDay(draw));
    expect(drawStagger(plan)).toEqual(starts);
  });

  it("come in every order, and on every day, over many seeds", () => {
    const orders = new Set<string>();
    const days = new Set<string>();
    for (let seed = 0; seed < 200; seed += 1) {
      const starts = drawStagger({ ...plan, seed: `s${seed}` });
      orders.add(starts.map(({ studentId }) => studentId).join());
      for (const { draw } of starts) days.add(drawDay(draw) ?? "");
    }
    expect(orders.size).toBe(6);
    expect(days.size).toBe(15);
  });

  it("are none for two students, for seven, and where the calendar has too few days", () => {
    expect(drawStagger({ ...plan, studentIds: ["s1", "s2"] })).toEqual([]);
    const seven = Array.from({ length: 7 }, (_, at) => `s${at}`);
    expect(drawStagger({ ...plan, studentIds: seven })).toEqual([]);
    const daysOff = [{ id: "off", firstDay: "2026-09-14", lastDay: "2028-09-14", label: "" }];
    expect(drawStagger({ ...plan, daysOff })).toEqual([]);
  });

  it("are tested on the class's page once they were kept", () => {
    const starts = drawStagger(plan);
    const days = Array.from({ length: 35 }, (_, at) => dayNumber("2026-09-07") + at)
      .map(dayText)
      .filter((_, at) => at % 7 < 5);
    const sessions = days.map((day, at) => session(`x${at}`, day));
    const phases = starts.flatMap(({ studentId, draw }): Phase[] => {
      const facts = { groupId: "g", studentId, label: "", probes: null };
      const startsOn = drawDay(draw) ?? "";
      return [
        { ...facts, id: `b${studentId}`, kind: "baseline", startsOn: "2026-09-07", draw: null },
        {
          ...facts,
          id: `p${studentId}`,
          kind: "intervention",
          startsOn,
          draw: { ...draw, times: 1 },
        },
      ];
    });
    const marks = ["s1", "s2", "s3"].map((studentId): { self: Marks } => {
      const start = phases.find(({ id }) => id === `p${studentId}`)?.startsOn ?? "";
      return { self: days.map((day) => (day < start ? [8, 12, 0] : [16, 4, 0])) };
    });
    const { staggered } = readGroup(groupCounts(sessions, marks, { phases }), plan.studentIds);
    expect(staggered).toMatchObject({
      students: 3,
      redrawn: false,
      test: { kind: "computed", ways: 125, probability: 1 / 125 },
      standing: { phases: 6, starts: 3 },
    });
    // One start that was moved from its day was chosen: two drawn ones are too few.
    const moved = phases.map((phase) =>
      phase.id === "ps1" ? { ...phase, startsOn: "2026-10-06" } : phase,
    );
    expect(
      readGroup(groupCounts(sessions, marks, { phases: moved }), plan.studentIds).staggered,
    ).toBeNull();
  });
});
