import { describe, expect, it } from "vitest";
import { glanceStudent } from "../../../../shared/analysis/summary.ts";
import { dayNumber, dayText } from "../../../../shared/calendar/calendar.ts";
import { dayNumbers } from "../../../../shared/calendar/days-off.ts";
import type { DayOff } from "../../../../shared/calendar/timetable.ts";
import { graphPoints, localMoment } from "../../../../shared/reading/graph-points.ts";
import { clipLine, phaseLines } from "../../../../shared/reading/phase-lines.ts";
import { sessionsOf } from "../../../../shared/reading/session-counts.ts";
import { spanOf } from "../../../../shared/reading/span.ts";
import { stepOf } from "../../../../src/charts/point-reader.tsx";
import { groupCounts, type Marks, session } from "./builders.ts";

const days = ["2026-09-07", "2026-09-08", "2026-09-09", "2026-09-10", "2026-09-25", "2026-09-28"];
const sessions = days.map((day, at) => session(`x${at}`, day));
const held = sessions.map((one) => ({ sessionId: one.id, startsAt: localMoment(one) }));

const off = (firstDay: string, lastDay = firstDay) => ({
  id: firstDay,
  firstDay,
  lastDay,
  label: "",
});

function runsOf(
  self: Marks,
  phaseStarts: readonly string[] = [],
  daysOff: readonly DayOff[] = [],
): [string, number][] {
  const readings = glanceStudent(sessionsOf(groupCounts(sessions, [{ self }]), "s1")).sessions;
  return graphPoints(readings, "self", held, phaseStarts, dayNumbers(daysOff)).map(
    ({ sessionId, run }) => [sessionId, run],
  );
}

const all: Marks = days.map(() => [7, 3, 0]);

describe("points of the single-case graph", () => {
  it("are joined from session to session, but not over a holiday", () => {
    expect(runsOf(all)).toEqual([
      ["x0", 0],
      ["x1", 0],
      ["x2", 0],
      ["x3", 0],
      ["x4", 1],
      ["x5", 1],
    ]);
  });

  it("are not joined over a session that was missed or left without a mark", () => {
    const missed: Marks = all.map((mark, at) => (at === 1 ? null : mark));
    const unmarked: Marks = all.map((mark, at) => (at === 1 ? [0, 0, 10] : mark));
    const expected = [
      ["x0", 0],
      ["x2", 1],
      ["x3", 1],
      ["x4", 2],
      ["x5", 2],
    ];
    expect(runsOf(missed)).toEqual(expected);
    expect(runsOf(unmarked)).toEqual(expected);
  });

  it("are joined over days off, which are not counted, and where only a day off was missed", () => {
    // 15 days from x3 to x4, of which five may be days off before the line is broken no longer.
    expect(runsOf(all, [], [off("2026-09-14", "2026-09-17")])[4]).toEqual(["x4", 1]);
    expect(runsOf(all, [], [off("2026-09-14", "2026-09-18")])[4]).toEqual(["x4", 0]);
    const missed: Marks = all.map((mark, at) => (at === 1 ? null : mark));
    expect(runsOf(missed, [], [off("2026-09-08")])[1]).toEqual(["x2", 0]);
    expect(runsOf(missed, [], [off("2026-09-09")])[1]).toEqual(["x2", 1]);
  });

  it("are not joined across a phase", () => {
    expect(runsOf(all, ["2026-09-01", "2026-09-09"]).slice(0, 4)).toEqual([
      ["x0", 0],
      ["x1", 0],
      ["x2", 1],
      ["x3", 1],
    ]);
  });

  it("stand at their local time of day", () => {
    expect(localMoment(session("x", "2026-09-07", 720))).toBe(dayNumber("2026-09-07") + 0.5);
  });
});

describe("level and trend of phases", () => {
  const counts = groupCounts(sessions, [{ self: days.map((_, at) => [2 + at, 8 - at, 0]) }]);
  const phases = [{ kind: "intervention" as const, label: "", startsOn: "2026-09-10" }];

  it("treat sessions before the first phase as a stretch of their own", () => {
    const lines = phaseLines(phases, sessionsOf(counts, "s1"), "self");
    expect(lines.map(({ firstDay, lastDay }) => [firstDay, lastDay])).toEqual([
      ["2026-09-07", "2026-09-09"],
      ["2026-09-10", "2026-09-28"],
    ]);
    expect(lines[0]?.level).toBeCloseTo(0.3, 12);
    // Three sessions are too few for a trend of their own.
    expect(lines[0]?.trend).toBeNull();
  });

  it("draw the trend from a phase's first day to its last", () => {
    // One mark in ten more at each of six sessions, three days apart: from .2 to .7, exactly.
    const held = [0, 3, 6, 9, 12, 15].map((after, at) => ({
      day: dayText(dayNumber("2026-09-07") + after),
      self: [2 + at, 8 - at, 0] as const,
    }));
    const steady = groupCounts(
      held.map(({ day }, at) => session(`s${at}`, day)),
      [{ self: held.map(({ self }) => self) }],
    );
    const [line] = phaseLines([], sessionsOf(steady, "s1"), "self");
    expect(line?.trend?.line.first).toBeCloseTo(0.2, 12);
    expect(line?.trend?.line.last).toBeCloseTo(0.7, 12);
  });

  const over = { first: "2026-09-01", last: "2026-09-11" };

  it("are cut to the span without changing their slope", () => {
    const part = clipLine({ first: 0.2, last: 0.7 }, over, {
      first: "2026-09-03",
      last: "2026-09-30",
    });
    expect(part?.from).toBe(dayNumber("2026-09-03"));
    expect(part?.first).toBeCloseTo(0.3, 12);
    expect(part?.last).toBeCloseTo(0.7, 12);
  });

  it("are cut where they leave the chart", () => {
    const part = clipLine({ first: 0.5, last: 1.5 }, over, over);
    expect(part?.to).toBeCloseTo(dayNumber("2026-09-06"), 9);
    expect(part?.last).toBeCloseTo(1, 12);
    expect(clipLine({ first: 1.2, last: 1.4 }, over, over)).toBeNull();
    expect(
      clipLine({ first: 0.2, last: 0.7 }, over, { first: "2026-10-01", last: "2026-10-09" }),
    ).toBeNull();
  });
});

describe("spans", () => {
  const school = ["2026-01-12", "2026-03-20", "2026-04-13", "2026-04-24", "2026-05-06"];

  it("show all, the days since the last long break, or four weeks to the newest session", () => {
    expect(spanOf("all", school, [], [])).toEqual({ first: "2026-01-12", last: "2026-05-06" });
    expect(spanOf("term", school, [], [])).toEqual({ first: "2026-04-13", last: "2026-05-06" });
    expect(spanOf("month", school, [], [])).toEqual({ first: "2026-04-09", last: "2026-05-06" });
    // The school's own terms come first, where one has the newest session's day.
    const summer = { firstDay: "2026-04-20", lastDay: "2026-07-10" };
    const winter = { firstDay: "2026-01-07", lastDay: "2026-03-27" };
    expect(spanOf("term", school, [], [winter, summer]).first).toBe("2026-04-20");
    expect(spanOf("term", school, [], [{ ...summer, firstDay: "2025-09-01" }]).first).toBe(
      "2026-01-12",
    );
    expect(spanOf("term", school, [], [winter]).first).toBe("2026-04-13");
  });

  it("keep a term together over a week off, and part terms at a long holiday", () => {
    // 21 days from 23 March to 13 April, 17 from 6 to 23 March; a stretch of ten days parts terms.
    const weekly = ["2026-02-20", "2026-03-06", "2026-03-23", "2026-04-13"];
    expect(spanOf("term", weekly, [], []).first).toBe("2026-04-13");
    const week = off("2026-03-28", "2026-04-05");
    expect(spanOf("term", weekly, [week, off("2026-03-16", "2026-03-20")], []).first).toBe(
      "2026-02-20",
    );
    expect(spanOf("term", weekly, [off("2026-03-28", "2026-04-06")], []).first).toBe("2026-04-13");
  });

  it("begin no earlier than the record, and need only one day", () => {
    expect(spanOf("month", ["2026-05-06"], [], [])).toEqual({
      first: "2026-05-06",
      last: "2026-05-06",
    });
    expect(spanOf("term", ["2026-05-06"], [], [])).toEqual({
      first: "2026-05-06",
      last: "2026-05-06",
    });
  });
});

describe("reading points with keys", () => {
  it("goes left and right, to both ends, and no farther", () => {
    expect(stepOf("ArrowLeft", 3, 5)).toBe(2);
    expect(stepOf("ArrowLeft", 0, 5)).toBe(0);
    expect(stepOf("ArrowRight", 4, 5)).toBe(4);
    expect(stepOf("Home", 3, 5)).toBe(0);
    expect(stepOf("End", 0, 5)).toBe(4);
    expect(stepOf("Tab", 0, 5)).toBeNull();
  });
});
